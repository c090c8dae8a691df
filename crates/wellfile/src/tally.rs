//! Tallies of casing: CSV with a header that names each column and its unit, `joint, overall length [ft], make-up loss [in]`.
//!
//! The head says how lengths were measured: overall, then each piece has its make-up loss; or made up. Neither is assumed.

use crate::csv::{Cell, cells, lines};
use crate::finding::{Finding, Findings, sort};
use crate::read::open;
use crate::report::Report;
use crate::source::{Files, Source, steers, tidy};
use rigwright_physics::Range;
use rigwright_units::{Kind, find_unit, parse};
use rigwright_well::{Piece, PieceKind, RANGES, Tally};
use std::collections::HashMap;
use std::sync::Arc;

/// More pieces than any string has.
const MOST_PIECES: usize = 4_000;
const CODE: &str = "well::tally";
const HELP: &str = "the first line names the columns with their units: `joint, overall length [ft], make-up loss [in]`, or `joint, made-up \
                    length [ft]`; `part`, `range`, `weight [lb/ft]`, `grade` and `remark` may follow";

/// Lengths of shoes, collars, pups and hangers. [m]
const SHORT_PIECE: Range = Range::between(0.05, 15.0);
/// Part of a joint that its thread takes. [m]
const LOSS: Range = Range::between(0.0, 0.5);
/// Weights of casing. [kg/m]
const WEIGHT: Range = Range::between(5.0, 1_500.0);

/// A tally that was read, with the text that it was read from.
#[derive(Clone, Debug)]
pub struct Tallied {
    /// The tally.
    pub tally: Tally,
    /// Its file.
    pub source: Arc<Source>,
}

/// Reads a tally.
///
/// # Errors
/// Everything that is wrong in it, sorted by place.
pub fn tally(name: &str, files: &dyn Files) -> Result<Tallied, Findings> {
    let mut report = Report::default();
    let source = open(name, None, files, &mut report);
    let read = source.as_ref().and_then(|source| pieces(source, &mut report));
    sort(&mut report.list, &source.iter().cloned().collect::<Vec<_>>());
    match (source, read) {
        (Some(source), Some(tally)) if !report.failed() && report.more == 0 => Ok(Tallied { tally, source }),
        _ => Err(Findings { file: tidy(name), list: report.list, more: report.more }),
    }
}

/// A column with a unit: where it stands and how it is read.
#[derive(Clone, Copy)]
struct Measured<'a> {
    index: usize,
    unit: &'a str,
    kind: Kind,
}

/// Where the columns stand.
struct Columns<'a> {
    count: usize,
    number: usize,
    overall: bool,
    length: Measured<'a>,
    loss: Option<Measured<'a>>,
    weight: Option<Measured<'a>>,
    part: Option<usize>,
    range: Option<usize>,
    grade: Option<usize>,
    remark: Option<usize>,
}

fn pieces(source: &Arc<Source>, report: &mut Report) -> Option<Tally> {
    let all = lines(source);
    let Some((head, rows)) = all.split_first() else {
        let finding = Finding::error(CODE, "there is no joint in this file").at(&Cell { text: "", start: 0 }.place(source), "");
        report.push(finding.help(HELP));
        return None;
    };
    let columns = columns(source, *head, report)?;
    if rows.is_empty() || rows.len() > MOST_PIECES {
        let message = format!("a tally of {} pieces cannot be used", rows.len());
        report.push(
            Finding::error(CODE, message)
                .at(&head.place(source), "below this header")
                .help("one line a piece, in the order of running"),
        );
        return None;
    }
    let mut reader = Reader { source, columns: &columns, report, seen: HashMap::new() };
    let read: Vec<Option<Piece>> = rows.iter().map(|line| reader.piece(*line)).collect();
    let read: Vec<Piece> = read.into_iter().collect::<Option<_>>()?;
    let first_shoe = read.iter().position(|piece| piece.kind == PieceKind::Shoe);
    if let Some(at) = first_shoe.filter(|at| *at > 0) {
        let finding =
            Finding::error(CODE, "the shoe is not the first piece of the tally").at(&rows[at].place(source), "this line");
        report.push(finding.help("lines stand in the order of running: the shoe goes in first"));
    }
    Some(Tally { overall: columns.overall, pieces: read })
}

fn columns<'a>(source: &Arc<Source>, head: Cell<'a>, report: &mut Report) -> Option<Columns<'a>> {
    let heads = cells(head);
    let find = |names: &[&str]| heads.iter().position(|cell| names.contains(&cell.name().as_str()));
    let mut good = true;
    let mut fault = |place: Cell, message: String, help: &str, report: &mut Report| {
        report.push(Finding::error(CODE, message).at(&place.place(source), "in this header").help(help));
        good = false;
    };
    let mut measured = |index: Option<usize>, kind: Kind, report: &mut Report| {
        let (index, unit) = (index?, heads[index?].unit());
        if find_unit(unit, kind).is_err() {
            let message = if unit.is_empty() {
                format!("the column `{}` has no unit", heads[index].text)
            } else {
                format!("`{unit}` is no unit of {}", kind.name())
            };
            fault(heads[index], message, HELP, report);
        }
        Some(Measured { index, unit, kind })
    };
    let (overall, made_up) = (find(&["overall length"]), find(&["made-up length", "made up length"]));
    let length = measured(overall.or(made_up), Kind::Depth, report);
    let loss = measured(find(&["make-up loss", "make up loss"]), Kind::Diameter, report);
    let weight = measured(find(&["weight"]), Kind::LinearMass, report);
    let number = find(&["joint", "number", "joint number", "no"]);
    if number.is_none() {
        fault(head, "the tally has no column `joint` for the number of each piece".to_owned(), HELP, report);
    }
    match (overall, made_up) {
        (None, None) => match find(&["length"]) {
            Some(plain) => fault(
                heads[plain],
                "this column does not say how lengths were measured".to_owned(),
                "name it `overall length`, thread included, or `made-up length`, as it stands in the string",
                report,
            ),
            None => fault(head, "the tally has no column of lengths".to_owned(), HELP, report),
        },
        (Some(_), Some(made_up)) => fault(
            heads[made_up],
            "lengths stand here twice, overall and made up".to_owned(),
            "keep one of the two columns",
            report,
        ),
        (Some(overall), None) if loss.is_none() => fault(
            heads[overall],
            "overall lengths without what the thread takes of them".to_owned(),
            "add a column `make-up loss [in]`, from the maker's sheet of the connection; it is not assumed",
            report,
        ),
        _ => {}
    }
    let (part, range, grade, remark) =
        (find(&["part"]), find(&["range"]), find(&["grade"]), find(&["remark", "remarks", "note"]));
    let (count, number, length) = (heads.len(), number?, length?);
    good.then_some(Columns { count, number, overall: overall.is_some(), length, loss, weight, part, range, grade, remark })
}

struct Reader<'a, 'b> {
    source: &'a Arc<Source>,
    columns: &'a Columns<'a>,
    report: &'b mut Report,
    /// Where each number was first seen.
    seen: HashMap<String, Cell<'a>>,
}

impl<'a> Reader<'a, '_> {
    fn fault(&mut self, cell: Cell, message: impl Into<String>, help: impl Into<String>) {
        self.report.push(Finding::error(CODE, message).at(&cell.place(self.source), "here").help(help));
    }

    fn piece(&mut self, line: Cell<'a>) -> Option<Piece> {
        let (columns, cells) = (self.columns, cells(line));
        let end = Cell { text: "", start: line.start + line.text.len() };
        let cell = |index: usize| cells.get(index).copied().unwrap_or(end);
        if cells.len() > columns.count {
            let message = format!("this line has {} cells, the header {}", cells.len(), columns.count);
            self.fault(
                line,
                message,
                "a comma parts cells: decimals take a point, a remark takes none, or part cells by semicolons",
            );
            return None;
        }
        let number = self.number(cell(columns.number));
        let kind = self.kind(columns.part.map(cell));
        let length = self.measured(columns.length, cell(columns.length.index), Range::POSITIVE);
        let loss = match columns.loss {
            Some(loss) => self.measured(loss, cell(loss.index), LOSS),
            None => Some(0.0),
        };
        // Made-up lengths have lost it already; the column then only tells how long the piece was.
        let told = loss.filter(|_| columns.loss.is_some());
        let weight = match columns.weight {
            Some(weight) if !cell(weight.index).text.is_empty() => self.measured(weight, cell(weight.index), WEIGHT).map(Some),
            _ => Some(None),
        };
        let range = self.range(columns.range.map(cell));
        let whole = kind
            .zip(length)
            .map(|(kind, length)| self.length_fits((kind, range.flatten()), length, (told, cell(columns.length.index))));
        let words = |index: Option<usize>| index.map_or_else(String::new, |index| cell(index).text.replace(steers, "?"));
        let (length, loss) = (length?, loss?);
        let make_up_loss = if columns.overall { loss } else { 0.0 };
        if !whole? {
            return None;
        }
        range?;
        Some(Piece {
            number: number?,
            kind: kind?,
            length,
            make_up_loss,
            linear_mass: weight?,
            grade: words(columns.grade),
            remark: words(columns.remark),
        })
    }

    /// The number of a piece, which no other has.
    fn number(&mut self, cell: Cell<'a>) -> Option<String> {
        if cell.text.is_empty() {
            self.fault(cell, "a piece has no number", "write what is painted on it");
            return None;
        }
        if let Some(first) = self.seen.get(cell.text) {
            let finding = Finding::error(CODE, format!("`{}` is counted twice", cell.text))
                .at(&cell.place(self.source), "again here")
                .at(&first.place(self.source), "first here");
            self.report.push(finding.help("every piece has a number of its own: strike the line, or give it its right number"));
            return None;
        }
        self.seen.insert(cell.text.to_owned(), cell);
        Some(cell.text.replace(steers, "?"))
    }

    /// What a piece is: a joint where nothing is said.
    fn kind(&mut self, cell: Option<Cell>) -> Option<PieceKind> {
        let Some(cell) = cell.filter(|cell| !cell.text.is_empty()) else { return Some(PieceKind::Joint) };
        let kind = PieceKind::ALL.into_iter().find(|kind| kind.word().eq_ignore_ascii_case(cell.text));
        if kind.is_none() {
            let words: Vec<&str> = PieceKind::ALL.iter().map(|kind| kind.word()).collect();
            let help = format!("the parts are {}; an empty cell is a joint", words.join(", "));
            self.fault(cell, format!("`{}` is no part of a casing", cell.text), help);
        }
        kind
    }

    fn measured(&mut self, column: Measured, cell: Cell, range: Range) -> Option<f64> {
        let help = format!("write a plain number in {}; decimals take a point", column.unit);
        if cell.text.is_empty() {
            self.fault(cell, "this cell is empty", help);
            return None;
        }
        match parse(&format!("{} {}", cell.text, column.unit), column.kind) {
            Ok(value) if range.contains(value) => Some(value),
            Ok(_) => {
                self.fault(cell, format!("`{} {}` cannot be right here", cell.text, column.unit), help);
                None
            }
            Err(_) => {
                self.fault(cell, format!("`{}` is no number", cell.text), help);
                None
            }
        }
    }

    /// The range class of a joint; nothing where none is written.
    fn range(&mut self, cell: Option<Cell>) -> Option<Option<usize>> {
        let Some(cell) = cell.filter(|cell| !cell.text.is_empty()) else { return Some(None) };
        let class = cell.text.trim_start_matches(['R', 'r']).trim().parse::<usize>().ok();
        match class.filter(|class| (1..=RANGES.len()).contains(class)) {
            Some(class) => Some(Some(class)),
            None => {
                self.fault(cell, format!("`{}` is no range class", cell.text), "write 1, 2 or 3, or leave it empty");
                None
            }
        }
    }

    /// Whether a piece is as long as its kind and its range class are.
    fn length_fits(&mut self, (kind, class): (PieceKind, Option<usize>), length: f64, (loss, cell): (Option<f64>, Cell)) -> bool {
        // What was lost in the thread is part of the length that the class speaks of; where nobody says how much, the
        // greatest that is believed may be missing.
        let overall = if self.columns.overall { 0.0 } else { loss.unwrap_or(0.0) };
        let slack = if self.columns.overall || loss.is_some() { 0.0 } else { LOSS.high };
        let (least, most, what) = match (kind, class) {
            (PieceKind::Joint, Some(class)) => (RANGES[class - 1].0, RANGES[class - 1].1, format!("a joint of range {class}")),
            (PieceKind::Joint, None) => (RANGES[0].0, RANGES[2].1, "any joint of casing".to_owned()),
            (kind, _) => (SHORT_PIECE.low, SHORT_PIECE.high, format!("a {}", kind.word())),
        };
        let whole = length + overall;
        // An end of a class, turned into another unit, may be off by the last bit.
        if (least - slack - 1e-9..=most + 1e-9).contains(&whole) {
            return true;
        }
        // In the unit of the column: whoever measured reads it off the same tape.
        let on_tape = |length: f64| find_unit(self.columns.length.unit, Kind::Depth).map_or(length, |unit| unit.from_si(length));
        let help = format!(
            "{what} is {:.2} to {:.2} {} long: measure it again, write its right range, or write `pup` as its part",
            on_tape(least),
            on_tape(most),
            self.columns.length.unit
        );
        let source = if kind == PieceKind::Joint { " (API Spec 5CT)" } else { "" };
        self.fault(cell, format!("`{}` is outside the lengths of {what}{source}", cell.text), help);
        false
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io;

    struct One(&'static str);

    impl Files for One {
        fn read(&self, _: &str) -> io::Result<Vec<u8>> {
            Ok(self.0.as_bytes().to_vec())
        }

        fn len(&self, _: &str) -> io::Result<u64> {
            Ok(self.0.len() as u64)
        }
    }

    fn read(text: &'static str) -> Result<Tally, Vec<(usize, String, String)>> {
        tally("tally.csv", &One(text)).map(|tallied| tallied.tally).map_err(|findings| {
            let told = |finding: &Finding| {
                let line = finding.labels.first().map_or(0, |label| label.place.line());
                (line, finding.message.clone(), finding.help.clone().unwrap_or_default())
            };
            findings.list.iter().map(told).collect()
        })
    }

    #[test]
    fn law_lengths_are_what_their_head_says() {
        let overall = read("joint, overall length [ft], make-up loss [in]\n1, 40.5, 4.5\n2, 41.25, 4.5\n").unwrap();
        let made_up = read("\u{feff}# laid out\nRemark;Joint Number;Made-up length (m)\nx, y;1;12.2301\n;2;12.4587\n").unwrap();
        assert!(overall.overall && !made_up.overall);
        for (one, two) in overall.pieces.iter().zip(&made_up.pieces) {
            assert!((one.made_up() - two.made_up()).abs() < 1e-4, "{one:?} {two:?}");
            assert_eq!(one.number, two.number);
        }
        assert!((overall.pieces[0].length - 40.5 * 0.3048).abs() < 1e-12);
        assert!((overall.pieces[0].make_up_loss - 4.5 * 0.0254).abs() < 1e-12);
        assert_eq!(made_up.pieces[0].remark, "x, y");
        let parts =
            read("joint,part,range,weight [lb/ft],grade,made-up length [ft]\nS,SHOE,,47,L-80,2\nP,pup,,,,6\n7,,R3,,,40\n")
                .unwrap();
        let kinds: Vec<PieceKind> = parts.pieces.iter().map(|piece| piece.kind).collect();
        assert_eq!(kinds, [PieceKind::Shoe, PieceKind::Pup, PieceKind::Joint]);
        assert!(parts.pieces[0].linear_mass.is_some() && parts.pieces[1].linear_mass.is_none());
    }

    /// The ends of a range class belong to it, in either unit.
    #[test]
    fn law_ends_of_a_class_belong_to_it() {
        assert!(read("joint,range,overall length [ft],make-up loss [in]\n1,2,25,0\n2,2,34,0\n3,3,48,0\n4,1,16,0\n").is_ok());
        // A made-up length has lost what its thread took, and may be shorter by it.
        assert!(read("joint,range,made-up length [ft],make-up loss [in]\n1,2,24.8,3\n").is_ok());
        assert!(read("joint,range,overall length [ft],make-up loss [in]\n1,2,24.8,3\n").is_err());
    }

    #[test]
    fn rejects_everything_at_once_with_its_line_and_what_to_write() {
        let text = "joint, part, range, overall length [ft], make-up loss [in], weight [lb/ft], remark\n\
                    1, , 3, 40.1, 4.5, 47, fine\n\
                    1, , 3, 40.2, 4.5, 47\n\
                    2, , 2, 40.3, 4.5, 47\n\
                    3, , 3, forty, 4.5, 47\n\
                    4, , 3, , 4.5, 47\n\
                    , , 3, 40.6, 4.5, 47\n\
                    6, basket, 3, 40.7, 4.5, 47\n\
                    7, , 9, 40.8, 4.5, 47\n\
                    8, , 3, 40.9, 45, 47\n\
                    9, pup, , 60, 4.5, 47\n\
                    10, , 3, 41, 4.5, 47, one, two\n\
                    11, shoe, , 2, 0, 47\n\
                    12, , , 4, 4.5, 4700\n";
        let faults = read(text).unwrap_err();
        let on = |line: usize| faults.iter().filter(|(at, ..)| *at == line).map(|(_, what, _)| what.as_str()).collect::<Vec<_>>();
        for (line, said) in [
            (3, "counted twice"),
            (4, "range 2"),
            (5, "is no number"),
            (6, "is empty"),
            (7, "has no number"),
            (8, "no part of a casing"),
            (9, "no range class"),
            (10, "cannot be right"),
            (11, "a pup"),
            (12, "8 cells, the header 7"),
        ] {
            assert!(on(line).iter().any(|what| what.contains(said)), "line {line}: {:?}", on(line));
        }
        assert_eq!(on(14).len(), 2, "length and weight: {:?}", on(14));
        assert!(on(2).is_empty());
        assert!(faults.iter().all(|(.., help)| !help.is_empty()), "{faults:?}");
        // A shoe further up is told once all lines can be read.
        let late = read("joint, part, made-up length [ft]\n1, , 40\nS, shoe, 2\n").unwrap_err();
        assert!(late[0].0 == 3 && late[0].1.contains("not the first"), "{late:?}");
    }

    #[test]
    fn rejects_heads_that_leave_something_to_be_guessed() {
        let said =
            |text: &'static str| read(text).unwrap_err().into_iter().map(|(_, what, _)| what).collect::<Vec<_>>().join("; ");
        assert!(said("").contains("no joint"));
        assert!(said("joint, length [ft]\n1, 40\n").contains("does not say how"));
        assert!(said("joint, overall length [ft]\n1, 40\n").contains("what the thread takes"));
        assert!(said("joint, overall length, make-up loss [in]\n1, 40, 4\n").contains("has no unit"));
        assert!(said("joint, made-up length [psi]\n1, 40\n").contains("no unit of"));
        assert!(said("made-up length [ft]\n40\n").contains("column `joint`"));
        assert!(said("joint, part\n1, shoe\n").contains("no column of lengths"));
        assert!(said("joint, made-up length [ft]\n").contains("0 pieces"));
        assert!(said("joint, made-up length [ft], overall length [ft]\n1, 40, 41\n").contains("twice"));
    }
}
