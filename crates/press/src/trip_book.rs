//! The trip sheet as a workbook: every volume is a formula over named inputs, and the crew enters what it measured.
//!
//! Three sheets: the trip row by row, the inputs with the pipe in the order in which it moves, and how much of each pipe
//! is in each row. The rows have the same lines on the first and the last sheet.

use crate::workbook::{Book, Looks, WorkbookError, origin};
use rigwright_margins::trip_sheet::{
    ALLOWED_FALL, ALLOWED_STANDS, FASTEST, Fill, JOINTS, Row, Run, SlugSet, Stretch, TripSheet, Way,
};
use rigwright_papers::paper::{Desk, trip_paper};
use rigwright_units::{Kind, System, unit};
use rigwright_well::PartKind;
use rust_xlsxwriter::{Format, Formula, Worksheet, XlsxError};

/// Row of the first stand on the sheets `trip` and `lengths`, counted from nought.
const FIRST: u32 = 5;
/// A length that decides which pipe stands in the top of the hole where a row begins just where a pipe ends.
const HAIR: &str = "0.00001";

/// A trip sheet as a workbook.
///
/// # Errors
/// When it cannot be written.
pub fn trip_book(desk: &Desk, sheet: &TripSheet) -> Result<Vec<u8>, WorkbookError> {
    let mut book = Book::new(origin(desk))?;
    let page = Page::new(desk, sheet);
    let section = &desk.subject.fit.well.sections[sheet.order.section].name;
    let way = if page.out { "out of the hole" } else { "into the hole" };
    trip(&mut book, &page, &format!("Trip sheet, {way}: {section}"))?;
    let names = inputs(&mut book, &page, desk)?;
    lengths(&mut book, &page)?;
    for (name, cell) in names {
        book.define(name, &cell)?;
    }
    Ok(book.bytes()?)
}

/// What all three sheets are written from.
struct Page<'a> {
    sheet: &'a TripSheet,
    units: System,
    out: bool,
    with_bore: bool,
    /// Length of a stand, and of a joint of the casing that is run. [m]
    stand: f64,
    joint: Option<f64>,
    /// Lines of the inputs, in their order.
    given: Vec<Given>,
}

/// An input of the trip.
struct Given {
    name: &'static str,
    label: &'static str,
    value: Option<f64>,
    kind: Kind,
}

impl<'a> Page<'a> {
    fn new(desk: &Desk, sheet: &'a TripSheet) -> Page<'a> {
        let (fit, run) = (desk.subject.fit, sheet.order.run);
        let casing = fit.well.sections[sheet.order.section].casing.as_ref().filter(|_| matches!(run, Run::Casing { .. }));
        let mut page = Page {
            sheet,
            units: desk.subject.units,
            out: matches!(run, Run::Out { .. }),
            with_bore: run.with_bore(),
            stand: fit.rig.mast.stand,
            joint: casing.map(|casing| casing.joint_length),
            given: Vec::new(),
        };
        page.given = page.given();
        page
    }

    fn given(&self) -> Vec<Given> {
        let (sheet, one) = (self.sheet, |name, label, value, kind| Given { name, label, value, kind });
        let end = if self.out { "bit where the way out begins" } else { "bit or shoe where the way in ends" };
        let with_bore = f64::from(u8::from(self.with_bore));
        let mut given = vec![
            one("bit_depth", end, Some(sheet.order.bit_depth), Kind::Depth),
            one("stand", "length of a stand", Some(self.stand), Kind::Depth),
        ];
        if self.joint.is_some() {
            given.push(one("joint", "length of a joint of casing", self.joint, Kind::Depth));
            given.push(one("joints", "joints of casing in a row", Some(f64::from(JOINTS)), Kind::Count));
        }
        let bore = "1 where the bore counts (pulled wet, or run on a float), 0 where not";
        given.extend([
            one("with_bore", bore, Some(with_bore), Kind::Count),
            one("mud_weight", "mud in the hole", Some(sheet.mud_weight), Kind::Density),
            one("mud_gradient", "pressure of a length of mud of weight 1", Some(sheet.constants.gravity), Kind::Acceleration),
            one("hole_capacity", "capacity of the top of the hole without pipe", sheet.top_capacity, Kind::VolumePerLength),
            one("pump_output", "output of one stroke of one pump", sheet.pump_output, Kind::VolumePerStroke),
            one("trip_tank", "volume of the trip tank", sheet.trip_tank, Kind::Volume),
            one("allowed_fall", "fall of pressure before the hole must be filled", Some(ALLOWED_FALL), Kind::Pressure),
            one("allowed_stands", "stands of drill pipe before it must be filled", Some(ALLOWED_STANDS), Kind::Count),
        ]);
        if let Some(slug) = &sheet.slug {
            given.push(one("slug_volume", "volume of the slug", Some(slug.volume), Kind::Volume));
            given.push(one("slug_weight", "weight of the slug", Some(slug.weight), Kind::Density));
        }
        given
    }

    /// A value in the unit of its kind.
    fn number(&self, value: f64, kind: Kind) -> f64 {
        unit(kind, self.units).from_si(value)
    }

    fn symbol(&self, kind: Kind) -> &'static str {
        unit(kind, self.units).symbol
    }

    /// What a product in units of these kinds is multiplied with to be a volume in its own unit: `0.001*` from litres.
    fn to_volume(&self, kinds: &[Kind]) -> String {
        let product: f64 = kinds.iter().map(|kind| unit(*kind, self.units).factor).product();
        let factor = product / unit(Kind::Volume, self.units).factor;
        // Units of two definitions meet in the last digit only.
        let factor = (factor * 1e9).round() / 1e9;
        if (factor - 1.0).abs() < 1e-12 { String::new() } else { format!("{factor}*") }
    }

    /// Line of the first pipe on the sheet of inputs, counted from one as formulas do.
    fn first_pipe(&self) -> u32 {
        // Above stand the title and its origin, the inputs, two lines of the slug, caption and heads, with gaps between.
        self.given.len() as u32 + 12
    }

    /// Line of the last pipe.
    fn last_pipe(&self) -> u32 {
        self.first_pipe() + self.sheet.stretches.len() as u32 - 1
    }

    /// Column of a pipe on the sheet of lengths.
    fn column(place: usize) -> String {
        rust_xlsxwriter::utility::column_number_to_name(3 + place as u16)
    }

    fn with_format(&self, looks: &Looks, kind: Kind) -> Format {
        let digits = match (kind, self.units) {
            (Kind::Volume, System::Field) | (Kind::Pressure, System::Metric) => "0.00",
            (Kind::Volume, _) => "0.000",
            (Kind::Count, _) | (Kind::Pressure, System::Canadian) => "0",
            _ => "0.0",
        };
        looks.result.clone().set_num_format(digits)
    }
}

/// A formula with what it gives; nothing is written as empty text.
fn live(sheet: &mut Worksheet, at: (u32, u16), formula: &str, value: Option<f64>, format: &Format) -> Result<(), XlsxError> {
    let result = value.map_or_else(String::new, |value| value.to_string());
    sheet.write_formula_with_format(at.0, at.1, Formula::new(formula).set_result(result), format)?;
    Ok(())
}

/// The trip row by row.
fn trip(book: &mut Book, page: &Page, title: &str) -> Result<(), XlsxError> {
    let looks = book.looks.clone();
    let widths = [6.0, 11.0, 24.0, 11.0, 11.0, 9.0, 11.0, 11.0, 11.0, 11.0, 10.0, 10.0, 10.0, 11.0];
    let sheet = book.sheet("trip", title, &widths)?;
    let verb = if page.out { "the hole should take" } else { "the hole should give" };
    sheet.write(
        2,
        0,
        format!("Expected is what {verb}. Enter what was measured row by row; sums stay empty behind a row left empty."),
    )?;
    let moved = if page.out { "swab" } else { "surge" };
    let heads = [
        ("no", Kind::Count),
        ("bit at", Kind::Depth),
        ("what", Kind::Count),
        ("expected", Kind::Volume),
        ("in all", Kind::Volume),
        ("strokes", Kind::Count),
        ("measured", Kind::Volume),
        ("in all", Kind::Volume),
        ("differs", Kind::Volume),
        ("differs in all", Kind::Volume),
        ("level falls", Kind::Depth),
        ("pressure falls", Kind::Pressure),
        (moved, Kind::Pressure),
        ("no faster", Kind::Speed),
    ];
    for (column, (head, kind)) in (0u16..).zip(heads) {
        sheet.write_with_format(3, column, head, &looks.strong)?;
        sheet.write(4, column, page.symbol(kind))?;
    }
    for (row, of) in (FIRST..).zip(&page.sheet.rows) {
        trip_row(sheet, page, row, of, &looks)?;
    }
    let (last, end) = (FIRST + page.sheet.rows.len() as u32, page.last_pipe());
    let row = last + 1;
    sheet.write(row, 2, "trip tanks in all, the last one begun")?;
    let tanks = format!("=IF(trip_tank>0,ROUNDUP(E{last}/trip_tank,0),\"\")");
    live(sheet, (row, 4), &tanks, page.sheet.tanks(), &page.with_format(&looks, Kind::Count))?;
    sheet.write(row + 1, 2, "length that the rows do not reach")?;
    let left = format!("=inputs!K{end}-lengths!C{last}");
    live(sheet, (row + 1, 4), &left, Some(0.0), &page.with_format(&looks, Kind::Depth))?;
    sheet.write(row + 2, 2, "Swab, surge and safe speeds are worked out by the program and stay when an input changes.")?;
    sheet.set_freeze_panes(FIRST, 0)?;
    sheet.set_repeat_rows(3, 4)?;
    Ok(())
}

fn trip_row(sheet: &mut Worksheet, page: &Page, row: u32, of: &Row, looks: &Looks) -> Result<(), XlsxError> {
    let (line, first) = (row + 1, FIRST + 1);
    let shown = |value: f64, kind: Kind| Some(page.number(value, kind));
    let [depth, volume, count, pressure] =
        [Kind::Depth, Kind::Volume, Kind::Count, Kind::Pressure].map(|kind| page.with_format(looks, kind));
    sheet.write(row, 0, of.count)?;
    let bit = if page.out { format!("=MAX(0,bit_depth-lengths!C{line})") } else { format!("=lengths!C{line}") };
    live(sheet, (row, 1), &bit, shown(of.bit_depth, Kind::Depth), &depth)?;
    sheet.write_with_format(row, 2, of.what.as_str(), &looks.plain)?;
    let (from, to) = (Page::column(0), Page::column(page.sheet.stretches.len() - 1));
    let scale = page.to_volume(&[Kind::VolumePerLength, Kind::Depth]);
    let expected = format!("={scale}SUMPRODUCT(lengths!{from}{line}:{to}{line},lengths!{from}${FIRST}:{to}${FIRST})");
    live(sheet, (row, 3), &expected, shown(of.volume, Kind::Volume), &volume)?;
    let total = if line == first { format!("=D{line}") } else { format!("=E{}+D{line}", line - 1) };
    live(sheet, (row, 4), &total, shown(of.total, Kind::Volume), &volume)?;
    let strokes = page.sheet.pump_output.map(|output| of.volume / output);
    let output = page.to_volume(&[Kind::VolumePerStroke]);
    live(sheet, (row, 5), &format!("=IF(pump_output>0,D{line}/({output}pump_output),\"\")"), strokes, &count)?;
    sheet.write_blank(row, 6, &looks.input)?;
    let measured = format!("=IF(COUNT(G${first}:G{line})=ROWS(G${first}:G{line}),SUM(G${first}:G{line}),\"\")");
    live(sheet, (row, 7), &measured, None, &volume)?;
    live(sheet, (row, 8), &format!("=IF(ISNUMBER(G{line}),G{line}-D{line},\"\")"), None, &volume)?;
    live(sheet, (row, 9), &format!("=IF(ISNUMBER(H{line}),H{line}-E{line},\"\")"), None, &volume)?;
    if let Some((fall, drop)) = of.fall.zip(of.drop) {
        let (top, end) = (page.first_pipe(), page.last_pipe());
        let place = format!("MATCH(lengths!B{line}+{HAIR},inputs!$J${top}:$J${end},1)");
        let falls = format!("=D{line}/({scale}INDEX(inputs!$I${top}:$I${end},{place}))");
        live(sheet, (row, 10), &falls, shown(fall, Kind::Depth), &depth)?;
        live(sheet, (row, 11), &format!("=K{line}*mud_weight*mud_gradient"), shown(drop, Kind::Pressure), &pressure)?;
    }
    if let Some(moved) = &of.moved {
        sheet.write_with_format(row, 12, page.number(moved.change, Kind::Pressure), &pressure)?;
        if moved.fastest < FASTEST {
            sheet.write_with_format(row, 13, page.number(moved.fastest, Kind::Speed), &depth)?;
        } else {
            sheet.write(row, 13, "any")?;
        }
    }
    Ok(())
}

/// Inputs, the pipe in the order in which it moves, cautions; gives names with their cells.
fn inputs(book: &mut Book, page: &Page, desk: &Desk) -> Result<Vec<(String, String)>, XlsxError> {
    let looks = book.looks.clone();
    let widths = [44.0, 14.0, 12.0, 13.0, 13.0, 13.0, 13.0, 13.0, 13.0, 11.0, 11.0, 10.0, 10.0, 10.0, 11.0, 10.0];
    let sheet =
        book.sheet("inputs", "What the trip sheet rests on; change a bordered cell and all that hangs on it follows", &widths)?;
    let mut names = Vec::new();
    let mut row = 3;
    for given in &page.given {
        sheet.write(row, 0, given.label)?;
        match given.value {
            Some(value) => sheet.write_with_format(row, 1, page.number(value, given.kind), &looks.input)?,
            None => sheet.write_blank(row, 1, &looks.input)?,
        };
        sheet.write(row, 2, page.symbol(given.kind))?;
        sheet.write(row, 3, given.name)?;
        names.push((given.name.to_owned(), format!("=inputs!$B${}", row + 1)));
        row += 1;
    }
    let first = page.first_pipe();
    if let Some(slug) = &page.sheet.slug {
        slugged(sheet, page, row + 1, slug, &looks)?;
    }
    sheet.write_with_format(
        first - 4,
        0,
        "pipe, in the order in which it moves; fills and falls are of one stand or joint",
        &looks.strong,
    )?;
    pipe_heads(sheet, page, first - 3, &looks)?;
    for (place, stretch) in page.sheet.stretches.iter().enumerate() {
        let row = first - 1 + place as u32;
        pipe(sheet, page, row, stretch, &looks)?;
        let begins: f64 = page.sheet.stretches[..place].iter().map(|stretch| stretch.length).sum();
        let before = if place == 0 { "=0".to_owned() } else { format!("=K{row}") };
        live(sheet, (row, 9), &before, Some(page.number(begins, Kind::Depth)), &looks.result)?;
        let ends = page.number(begins + stretch.length, Kind::Depth);
        live(sheet, (row, 10), &format!("=J{0}+C{0}", row + 1), Some(ends), &looks.result)?;
        for (what, column) in [("length", 'C'), ("displacement", 'D'), ("capacity", 'E'), ("closed_end", 'F')] {
            names.push((format!("pipe_{}_{what}", place + 1), format!("=inputs!${column}${}", row + 1)));
        }
    }
    let mut row = page.last_pipe() + 1;
    sheet.write_with_format(row, 0, "cautions", &looks.strong)?;
    let paper = trip_paper(desk, page.sheet);
    for caution in paper.cautions {
        row += 1;
        sheet.write(row, 0, caution)?;
    }
    Ok(names)
}

/// What the slug leaves dry, and what comes back while it falls.
fn slugged(sheet: &mut Worksheet, page: &Page, row: u32, slug: &SlugSet, looks: &Looks) -> Result<(), XlsxError> {
    let scale = page.to_volume(&[Kind::VolumePerLength, Kind::Depth]);
    sheet.write(row, 0, "the slug leaves this much pipe dry")?;
    let dry = format!("=slug_volume/({scale}E{})*(slug_weight/mud_weight-1)", page.first_pipe());
    live(sheet, (row, 1), &dry, Some(page.number(slug.dry_length, Kind::Depth)), &looks.result)?;
    sheet.write(row, 2, page.symbol(Kind::Depth))?;
    sheet.write(row + 1, 0, "what comes back while it falls, which is no influx")?;
    let gain = format!("={scale}B{}*E{}", row + 1, page.first_pipe());
    live(sheet, (row + 1, 1), &gain, Some(page.number(slug.gain, Kind::Volume)), &looks.result)?;
    sheet.write(row + 1, 2, page.symbol(Kind::Volume))?;
    Ok(())
}

fn pipe_heads(sheet: &mut Worksheet, page: &Page, row: u32, looks: &Looks) -> Result<(), XlsxError> {
    let heads = [
        ("pipe", Kind::Count),
        ("counted in", Kind::Count),
        ("length", Kind::Depth),
        ("displacement", Kind::VolumePerLength),
        ("bore", Kind::VolumePerLength),
        ("closed end", Kind::VolumePerLength),
        ("annulus at top", Kind::VolumePerLength),
        ("fill", Kind::VolumePerLength),
        ("level falls in", Kind::VolumePerLength),
        ("begins at", Kind::Depth),
        ("ends at", Kind::Depth),
        ("fill of one", Kind::Volume),
        ("strokes", Kind::Count),
        ("level falls", Kind::Depth),
        ("pressure falls", Kind::Pressure),
        ("fill after", Kind::Count),
    ];
    for (column, (head, kind)) in (0u16..).zip(heads) {
        sheet.write_with_format(row, column, head, &looks.strong)?;
        sheet.write(row + 1, column, page.symbol(kind))?;
    }
    Ok(())
}

/// A pipe: what it displaces, and what a stand or joint of it leaves behind.
fn pipe(sheet: &mut Worksheet, page: &Page, row: u32, stretch: &Stretch, looks: &Looks) -> Result<(), XlsxError> {
    let line = row + 1;
    let per_length = |value: f64| page.number(value, Kind::VolumePerLength);
    sheet.write(row, 0, stretch.name.as_str())?;
    sheet.write(row, 1, if stretch.kind.is_some() { "stand" } else { "joint" })?;
    let length = page.number(stretch.length, Kind::Depth);
    // The uppermost pipe reaches from the others to the surface, wherever the bit is.
    let uppermost = if page.out { page.first_pipe() } else { page.last_pipe() };
    if line == uppermost {
        let others = (page.first_pipe()..=page.last_pipe()).filter(|other| *other != line).map(|other| format!("-C{other}"));
        let rest = format!("=bit_depth{}", others.collect::<String>());
        live(sheet, (row, 2), &rest, Some(length), &looks.result)?;
    } else {
        sheet.write_with_format(row, 2, length, &looks.input)?;
    }
    for (column, value) in (3u16..).zip([stretch.displacement, stretch.capacity, stretch.closed_end]) {
        sheet.write_with_format(row, column, per_length(value), &looks.input)?;
    }
    live(sheet, (row, 7), &format!("=D{line}+with_bore*E{line}"), Some(per_length(stretch.fill(page.with_bore))), &looks.result)?;
    let Some((annulus, falls_in)) = stretch.annulus.zip(stretch.falls_in(page.with_bore)) else { return Ok(()) };
    live(sheet, (row, 6), &format!("=hole_capacity-F{line}"), Some(per_length(annulus)), &looks.result)?;
    live(sheet, (row, 8), &format!("=G{line}+(1-with_bore)*E{line}"), Some(per_length(falls_in)), &looks.result)?;
    let same = |fill: &&Fill| fill.name == stretch.name && (fill.displacement - stretch.displacement).abs() < f64::EPSILON;
    match page.sheet.kinds.iter().find(same) {
        Some(fill) => {
            let (way, one) =
                (if page.with_bore { fill.wet } else { fill.dry }, if stretch.kind.is_some() { "stand" } else { "joint" });
            one_of(sheet, page, (row, one), &way, stretch.kind == Some(PartKind::DrillPipe))
        }
        None => Ok(()),
    }
}

/// What one stand or joint leaves behind.
fn one_of(sheet: &mut Worksheet, page: &Page, (row, one): (u32, &str), way: &Way, drill_pipe: bool) -> Result<(), XlsxError> {
    let (line, plain) = (row + 1, Format::new().set_num_format("0.###"));
    let scale = page.to_volume(&[Kind::VolumePerLength, Kind::Depth]);
    let output = page.to_volume(&[Kind::VolumePerStroke]);
    let fill = format!("={scale}{one}*H{line}");
    live(sheet, (row, 11), &fill, Some(page.number(way.volume, Kind::Volume)), &plain)?;
    live(sheet, (row, 12), &format!("=IF(pump_output>0,L{line}/({output}pump_output),\"\")"), way.strokes, &plain)?;
    live(sheet, (row, 13), &format!("=L{line}/({scale}I{line})"), Some(page.number(way.fall, Kind::Depth)), &plain)?;
    let drop = page.number(way.drop, Kind::Pressure);
    live(sheet, (row, 14), &format!("=N{line}*mud_weight*mud_gradient"), Some(drop), &plain)?;
    let whole = format!("ROUNDDOWN(allowed_fall/O{line},0)");
    let before = if drill_pipe { format!("=MIN({whole},allowed_stands)") } else { format!("={whole}") };
    live(sheet, (row, 15), &before, Some(way.before), &plain)
}

/// How much of each pipe is in each row.
fn lengths(book: &mut Book, page: &Page) -> Result<(), XlsxError> {
    let looks = book.looks.clone();
    let sheet = book.sheet("lengths", "Length of each pipe in each row", &[6.0, 12.0, 12.0])?;
    let top = page.first_pipe();
    let heads = ["no", "moved from", "to"];
    for (column, head) in (0u16..).zip(heads) {
        sheet.write_with_format(3, column, head, &looks.strong)?;
    }
    sheet.write(4, 0, "fill")?;
    sheet.write(4, 1, page.symbol(Kind::VolumePerLength))?;
    let head = looks.strong.clone().set_text_wrap();
    for (place, stretch) in page.sheet.stretches.iter().enumerate() {
        let (column, line) = (3 + place as u16, top + place as u32);
        sheet.set_column_width(column, 14)?;
        sheet.write_with_format(3, column, stretch.name.as_str(), &head)?;
        let fill = page.number(stretch.fill(page.with_bore), Kind::VolumePerLength);
        live(sheet, (4, column), &format!("=inputs!H{line}"), Some(fill), &looks.result)?;
    }
    let plain = Format::new().set_num_format("0.0##");
    let mut moved = 0.0;
    for (row, of) in (FIRST..).zip(&page.sheet.rows) {
        let line = row + 1;
        sheet.write(row, 0, of.count)?;
        let from = if row == FIRST { "=0".to_owned() } else { format!("=C{row}") };
        live(sheet, (row, 1), &from, Some(page.number(moved, Kind::Depth)), &plain)?;
        moved += of.length;
        // Casing is counted in joints up to its own end, pipe in stands up to the end of the way.
        let casing = of.pieces.first().filter(|(place, _)| page.sheet.stretches[*place].kind.is_none());
        let (step, end) = match casing {
            Some((place, _)) => ("joints*joint", top + *place as u32),
            None => ("stand", page.last_pipe()),
        };
        let to = format!("=MIN(B{line}+{step},inputs!$K${end})");
        live(sheet, (row, 2), &to, Some(page.number(moved, Kind::Depth)), &plain)?;
        for place in 0..page.sheet.stretches.len() {
            let length: f64 = of.pieces.iter().filter(|(piece, _)| *piece == place).map(|(_, length)| length).sum();
            let pipe = top + place as u32;
            let within = format!("=MAX(0,MIN($C{line},inputs!$K${pipe})-MAX($B{line},inputs!$J${pipe}))");
            live(sheet, (row, 3 + place as u16), &within, Some(page.number(length, Kind::Depth)), &plain)?;
        }
    }
    sheet.set_freeze_panes(FIRST, 3)?;
    sheet.set_repeat_rows(3, 4)?;
    Ok(())
}
