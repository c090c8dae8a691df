//! Workbooks: figures with live formulas, so that an engineer can check them by hand and change a number.
//!
//! The sheet of answers holds demand, limit and reserve as named cells and works out the rest. The sheet of a working
//! holds every formula of it: inputs as named cells, results as formulas, later steps pointing to earlier ones. The trip
//! sheet has its own file.

use crate::chain::chain;
use crate::trip_book::trip_book;
use rigwright_margins::kill_sheet::{Order, kill_sheet};
use rigwright_margins::trip_sheet::trip_sheet;
use rigwright_margins::{Answer, Explained, Remark};
use rigwright_papers::paper::{Desk, Fingerprint, trip_order};
use rigwright_papers::remark;
use rigwright_physics::{Off, Working};
use rigwright_units::{System, unit};
use rigwright_well::Fit;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, FormatBorder, Formula, Workbook, Worksheet, XlsxError};

/// Why there is no workbook.
#[derive(Debug, thiserror::Error)]
pub enum WorkbookError {
    /// The paper has none.
    #[error("the paper `{0}` has no workbook")]
    None(String),
    /// The paper cannot be made.
    #[error("there is no {what}: {why}")]
    Refused {
        /// The paper.
        what: &'static str,
        /// Why.
        why: String,
    },
    /// It cannot be written.
    #[error("the workbook cannot be made: {0}")]
    Format(#[from] XlsxError),
}

impl WorkbookError {
    fn refused(what: &'static str, refused: &[Remark], desk: &Desk) -> WorkbookError {
        let why: Vec<String> = refused.iter().map(|why| remark(why, desk.subject.units)).collect();
        WorkbookError::Refused { what, why: why.join("; ") }
    }
}

/// Papers that have a workbook.
pub const WORKBOOKS: [&str; 3] = ["rig-fit", "trip-sheet", "kill-sheet"];

/// Questions whose working stands in the rig-fit workbook, at least one a system: those with most to check by hand.
const WORKINGS: [&str; 8] = [
    "hoisting/line-strength",
    "hoisting/drawworks-power",
    "rotating/pipe-overpull",
    "circulating/pump-power",
    "circulating/weight-up",
    "power/sets-on-line",
    "control/casing-burst",
    "control/kill-weight",
];

/// The workbook of a paper; the kill sheet's is that of the blank sheet, in which shut-in readings are typed.
///
/// # Errors
/// When the paper has none, cannot be made, or cannot be written.
pub fn workbook(desk: &Desk, slug: &str) -> Result<Vec<u8>, WorkbookError> {
    let fit = desk.subject.fit;
    match slug {
        "rig-fit" => rig_fit(desk),
        "trip-sheet" => match trip_sheet(fit, &trip_order(desk), &mut Off) {
            Ok(sheet) => trip_book(desk, &sheet),
            Err(refused) => Err(WorkbookError::refused("trip sheet", &refused, desk)),
        },
        "kill-sheet" => {
            let section = desk.section();
            let order = Order::without_readings(section, fit.well.sections[section].bottom);
            let mut working = Working::default();
            match kill_sheet(fit, &order, &mut working) {
                Ok(_) => desk_book(desk, "kill sheet", &working),
                Err(refused) => Err(WorkbookError::refused("kill sheet", &refused, desk)),
            }
        }
        other => Err(WorkbookError::None(other.to_owned())),
    }
}

/// What a workbook says that it comes from.
pub(crate) fn origin(desk: &Desk) -> String {
    let head = desk.head();
    format!("{} on {}, as of {}, inputs {}, Rigwright {}", head.well, head.rig, head.as_of, head.fingerprint, head.version)
}

fn rig_fit(desk: &Desk) -> Result<Vec<u8>, WorkbookError> {
    let mut book = Book::new(origin(desk))?;
    answers(&mut book, desk)?;
    let ranked = desk.subject.review.ranked();
    let worst = |slug: &str| ranked.iter().find(|asked| asked.question.slug == slug && asked.answer.judged().is_some());
    for asked in WORKINGS.iter().filter_map(|slug| worst(slug)) {
        let name = asked.question.title;
        let title = format!("{name}, {}", desk.where_asked(asked));
        book.working(name, &title, &asked.working(desk.subject.fit), desk.subject.units)?;
    }
    Ok(book.bytes()?)
}

/// The working of one figure as a workbook.
///
/// # Errors
/// When it cannot be written.
pub fn working_book(fit: &Fit, explained: &Explained, print: &Fingerprint, units: System) -> Result<Vec<u8>, WorkbookError> {
    let asked = &explained.asked;
    let from = format!("{} on {}, inputs {print}", fit.well.name, fit.rig.name);
    let section = asked.section.and_then(|section| fit.well.sections.get(section)).map_or("the rig", |section| &section.name);
    working_sheet(from, &format!("{}, {section}", asked.question.title), &explained.working, units)
}

/// The working of a paper as a workbook; `title` says of which.
///
/// # Errors
/// When it cannot be written.
pub fn desk_book(desk: &Desk, title: &str, working: &Working) -> Result<Vec<u8>, WorkbookError> {
    working_sheet(origin(desk), title, working, desk.subject.units)
}

/// Any working as a workbook of one sheet; `from` says what it belongs to.
fn working_sheet(from: String, title: &str, working: &Working, units: System) -> Result<Vec<u8>, WorkbookError> {
    let mut book = Book::new(from)?;
    book.working("working", title, working, units)?;
    Ok(book.bytes()?)
}

/// A workbook with the looks of its cells.
pub(crate) struct Book {
    book: Workbook,
    /// Well, rig, moment, fingerprint: what every sheet says of itself.
    from: String,
    pub(crate) looks: Looks,
}

impl Book {
    pub(crate) fn new(from: String) -> Result<Book, XlsxError> {
        let mut book = Workbook::new();
        // The moment of the paper, not of the writing: the same input gives the same bytes.
        let made = ExcelDateTime::from_ymd(2000, 1, 1)?;
        book.set_properties(&DocProperties::new().set_title(&from).set_creation_datetime(&made));
        let looks = Looks {
            strong: Format::new().set_bold(),
            input: Format::new().set_border(FormatBorder::Thin).set_num_format("0.######"),
            result: Format::new().set_bold().set_num_format("0.######"),
            plain: Format::new().set_text_wrap(),
        };
        Ok(Book { book, from, looks })
    }

    pub(crate) fn sheet(&mut self, name: &str, title: &str, widths: &[f64]) -> Result<&mut Worksheet, XlsxError> {
        let sheet = self.book.add_worksheet();
        sheet.set_name(name)?;
        // What is worked out later, from what the crew enters, stands empty until then.
        sheet.set_formula_result_default("");
        sheet.write_with_format(0, 0, title, &self.looks.strong)?;
        sheet.write(1, 0, self.from.as_str())?;
        for (column, width) in (0u16..).zip(widths) {
            sheet.set_column_width(column, *width)?;
        }
        sheet.set_landscape().set_print_fit_to_pages(1, 0);
        Ok(sheet)
    }

    /// A sheet with a working, formula by formula.
    fn working(&mut self, name: &str, title: &str, working: &Working, units: System) -> Result<(), XlsxError> {
        let looks = self.looks.clone();
        let sheet = self.sheet(name, title, &[18.0, 52.0, 16.0, 12.0, 60.0])?;
        let names = chain(sheet, &looks, name, working, units)?;
        for (cell, formula) in names {
            self.define(cell, &formula)?;
        }
        Ok(())
    }

    /// Gives a cell a name.
    pub(crate) fn define(&mut self, name: String, cell: &str) -> Result<(), XlsxError> {
        self.book.define_name(name, cell)?;
        Ok(())
    }

    pub(crate) fn bytes(mut self) -> Result<Vec<u8>, XlsxError> {
        self.book.save_to_buffer()
    }
}

/// Looks of the cells of a workbook.
#[derive(Clone)]
pub(crate) struct Looks {
    pub(crate) strong: Format,
    pub(crate) input: Format,
    pub(crate) result: Format,
    pub(crate) plain: Format,
}

/// Every judged answer: what is asked, the limit and the reserve as inputs, the rest as formulas.
fn answers(book: &mut Book, desk: &Desk) -> Result<(), XlsxError> {
    let Looks { strong, input, result, .. } = book.looks.clone();
    let mut names = Vec::new();
    let sheet =
        book.sheet("answers", "Rig-fit: every judged answer", &[26.0, 44.0, 10.0, 14.0, 14.0, 14.0, 14.0, 10.0, 10.0, 34.0])?;
    let heads =
        ["question", "where", "unit", "demand", "limit", "wanted reserve", "left", "room", "verdict", "what sets the limit"];
    for (column, head) in (0u16..).zip(heads) {
        sheet.write_with_format(3, column, head, &strong)?;
    }
    let judged = desk.subject.review.answers.iter().filter_map(|asked| match &asked.answer {
        Answer::Judged(judged) => Some((asked, judged)),
        _ => None,
    });
    for (row, (asked, judged)) in (4u32..).zip(judged) {
        let unit = unit(asked.question.kind, desk.subject.units);
        let line = row + 1;
        sheet.write(row, 0, asked.question.title)?;
        sheet.write(row, 1, desk.where_asked(asked))?;
        sheet.write(row, 2, unit.symbol)?;
        sheet.write_with_format(row, 3, unit.from_si(judged.demand), &input)?;
        sheet.write_with_format(row, 4, unit.from_si(judged.limit.capacity), &input)?;
        // A reserve is a difference: a thermometer scale keeps its nought out of it.
        sheet.write_with_format(row, 5, judged.limit.reserve / unit.factor, &input)?;
        let left = judged.left() / unit.factor;
        sheet.write_formula_with_format(
            row,
            6,
            Formula::new(format!("=E{line}-D{line}")).set_result(left.to_string()),
            &result,
        )?;
        sheet.write_formula_with_format(
            row,
            7,
            Formula::new(format!("=G{line}/F{line}")).set_result(judged.room().to_string()),
            &result,
        )?;
        let word = format!("=IF(H{line}<0,\"short\",IF(H{line}<1,\"thin\",\"holds\"))");
        sheet.write_formula_with_format(row, 8, Formula::new(word).set_result(asked.verdict().word()), &result)?;
        sheet.write(row, 9, judged.limit.name)?;
        let slug = asked.question.slug.replace(['/', '-'], "_");
        let section = asked.section.map_or_else(|| "rig".to_owned(), |section| format!("s{}", section + 1));
        for (what, column) in [("demand", 'D'), ("limit", 'E'), ("reserve", 'F')] {
            names.push((format!("{slug}_{section}_{what}"), format!("=answers!${column}${line}")));
        }
    }
    for (name, cell) in names {
        book.define(name, &cell)?;
    }
    Ok(())
}
