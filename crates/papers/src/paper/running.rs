//! The running sheet and tally of a casing: piece by piece lengths, tops, volumes and hook loads, with room for what was measured.

use super::kinds::{Body, RUNNING};
use super::{Cell, Desk, Fact, Paper, Part, Pen, Record, Table, fingerprint_of};
use crate::kill_sheet::remark;
use crate::trip_sheet::fastest;
use rigwright_margins::running_sheet::{HookLoads, PAGE, RunPiece, RunningSheet, running_sheet};
use rigwright_units::Kind;
use rigwright_wellfile::{Origin, Tallied};

/// Places behind the point of a length: a tally is kept to the hundredth of a foot, or the centimetre.
const PLACES: usize = 2;

/// Name of the running sheet in commands and file names.
pub const RUNNING_SHEET: &str = "running-sheet";

const CAUTIONS: &[&str] = &[
    "Two people measure and two add up, each for himself; the sum of the pages must be the sum of the pieces. What was left on \
     the racks is counted when the last joint is in: pieces run and pieces left are pieces delivered.",
    "Lengths are those of the racks: stretch, heat and the bend of the hole lengthen no piece here. The hanger lands where it \
     lands, not where the sum says.",
    "Displaced volumes are steel by its weight, couplings included; on the float the bore displaces as well. Compare what comes \
     back with them joint by joint: more is an influx, less are losses or a float that leaks.",
    "Fill as it is run unless the float fills it; an empty string can collapse. Hook loads are those of the friction in the \
     well file, and of a string that is filled but for what is floated.",
    "The maker's sheet governs torque and make-up loss; drift every joint (common practice).",
];

pub(super) fn body(desk: &Desk) -> Body {
    match running_sheet(desk.subject.fit, desk.section(), None) {
        Ok(sheet) => of_sheet(desk, &sheet, None),
        Err(why) => Body::plain(vec![Part::strong(format!("No running sheet: {}.", remark(&why, desk.subject.units)))]),
    }
}

/// The running sheet of a tally that was read, with its fingerprint; or in words why there can be none.
pub fn tallied_paper(desk: &Desk, tallied: &Tallied) -> Result<Paper, String> {
    let sheet = running_sheet(desk.subject.fit, desk.section(), Some(&tallied.tally));
    let sheet = sheet.map_err(|why| remark(&why, desk.subject.units))?;
    let print = fingerprint_of(&tallied.source.text);
    Ok(running_paper(desk, &sheet, &Record { file: &tallied.source.name, print: &print }))
}

/// A running sheet of a tally.
pub fn running_paper(desk: &Desk, sheet: &RunningSheet, record: &Record) -> Paper {
    RUNNING.with(desk, of_sheet(desk, sheet, Some(record)))
}

fn of_sheet(desk: &Desk, sheet: &RunningSheet, record: Option<&Record>) -> Body {
    let mut parts = vec![Part::Facts { facts: facts(desk, sheet) }, Part::text(lengths(desk, sheet, record))];
    let beware: Vec<String> = sheet.cautions.iter().map(|caution| remark(caution, desk.subject.units)).collect();
    if !beware.is_empty() {
        parts.push(Part::strong(format!("Beware: {}.", beware.join("; "))));
    }
    parts.push(space_out(desk, sheet));
    parts.push(sums(desk, sheet));
    if !sheet.spares.is_empty() {
        parts.push(spares(desk, sheet));
    }
    parts.push(tally(desk, sheet));
    parts.push(run(desk, sheet));
    parts.push(Part::Signatures { lines: vec!["measured by".into(), "added up by".into(), "driller".into()] });
    let stale = if sheet.sums.agree() { Vec::new() } else { vec!["the sums of the tally do not agree".to_owned()] };
    Body { parts, stale, cautions: CAUTIONS.to_vec() }
}

fn long(pen: &Pen, length: f64) -> String {
    pen.places(length, Kind::Depth, PLACES)
}

fn facts(desk: &Desk, sheet: &RunningSheet) -> Vec<Fact> {
    let pen = desk.pen();
    let fact = |label: &str, value: String, note: String| Fact { label: label.to_owned(), value, note };
    let Some(casing) = desk.subject.fit.well.sections.get(sheet.section).and_then(|section| section.casing.as_ref()) else {
        return Vec::new();
    };
    let HookLoads { up, still, down } = sheet.landed;
    let limit = sheet.limit.map_or_else(
        || "largest hook load unknown".to_owned(),
        |limit| format!("at most {}: {}", pen.down(limit.capacity, Kind::Force), limit.name),
    );
    let torque = casing.make_up_torque.map_or_else(
        || "make-up torque not given".to_owned(),
        |torque| format!("make-up torque {}", pen.show(torque, Kind::Torque)),
    );
    let kind = format!("{} {}; {torque}", pen.show(casing.linear_mass, Kind::LinearMass), casing.grade);
    vec![
        fact(&casing.name, pen.show(casing.outer_diameter, Kind::Diameter), kind),
        fact(
            "shoe at",
            pen.show(casing.shoe, Kind::Depth),
            format!("{} pieces, each run at a mean of {}", sheet.pieces.len(), pen.show(sheet.speed, Kind::Speed)),
        ),
        fact(
            "hook load there, picked up",
            pen.up(up, Kind::Force),
            format!("still {}, lowered {}; {limit}", pen.show(still, Kind::Force), pen.show(down, Kind::Force)),
        ),
        fact(
            "it displaces",
            pen.show(sheet.pieces.last().map_or(0.0, |piece| piece.volumes.open_total), Kind::Volume),
            format!(
                "open; on the float {}; mud {}",
                pen.show(sheet.pieces.last().map_or(0.0, |piece| piece.volumes.closed_total), Kind::Volume),
                pen.show(sheet.mud_weight, Kind::Density)
            ),
        ),
    ]
}

/// Where the lengths come from.
fn lengths(desk: &Desk, sheet: &RunningSheet, record: Option<&Record>) -> String {
    let (Some(record), true) = (record, sheet.tallied) else {
        let path = format!("section[{}].casing.joint_length", sheet.section);
        let from = match desk.subject.provenance.get(&path) {
            Some(Origin::Defaulted { source, .. }) => format!("assumed, {source}"),
            _ => "from the well file".to_owned(),
        };
        let joint = sheet.pieces.first().map_or(0.0, |piece| piece.length);
        return format!(
            "PLAN, no tally: every joint {} ({from}). With a tally: `rigwright papers running-sheet WELL --tally FILE`.",
            long(&desk.pen(), joint)
        );
    };
    let how = if sheet.overall {
        "Lengths were measured overall; each is less what its thread takes."
    } else {
        "Lengths were measured made up, as they stand in the string."
    };
    format!("{how} Made from {}, fingerprint of the tally {}.", record.file, record.print)
}

fn space_out(desk: &Desk, sheet: &RunningSheet) -> Part {
    let pen = desk.pen();
    let out = &sheet.space_out;
    let mut table = Table::new("spacing out", &["**what", ">length", "***which is"]);
    let mut row = |what: &str, length: Option<f64>, words: String| {
        let length = length.map_or_else(|| "unknown".to_owned(), |length| long(&pen, length));
        table.row([what.into(), length.into(), words.into()]);
    };
    row("planned upper end to shoe", Some(out.planned), "by the well file".to_owned());
    row("pieces that go in", Some(out.run), format!("{} of {}", sheet.pieces.len(), sheet.sums.count));
    let (what, words) = if out.stick_up < 0.0 {
        ("lacking", "the string does not reach: more pieces are wanted")
    } else {
        ("stick-up with the shoe at its depth", "above the planned upper end")
    };
    row(what, Some(out.stick_up.abs()), words.to_owned());
    if let Some(without) = out.without_last.filter(|_| out.stick_up >= 0.0) {
        row("without the uppermost joint", Some(without.abs()), "below the planned upper end: space out with pups".to_owned());
    }
    if sheet.tallied {
        let inside = out.track_volume.map_or_else(String::new, |volume| format!("holds {}", pen.show(volume, Kind::Volume)));
        row("shoe track, lower end to collar", out.shoe_track, inside);
        if let Some(volume) = out.to_collar {
            let words = format!("{} from the upper end down to the collar", pen.show(volume, Kind::Volume));
            row("mud that lands the plug", Some(out.planned - out.shoe_track.unwrap_or(0.0)), words);
        }
    }
    Part::Table(table)
}

fn sums(desk: &Desk, sheet: &RunningSheet) -> Part {
    let (pen, sums) = (desk.pen(), &sheet.sums);
    let caption =
        if sheet.tallied { "the whole tally, spares too, added up in three ways" } else { "the plan, added up in three ways" };
    let mut table = Table::new(caption, &["**how", ">sum", ">difference", "**checked by hand"]);
    let ways = [
        ("piece by piece, in the order of running", sums.forward),
        ("page by page, ten pieces each", sums.by_pages),
        ("measured lengths from the last back, less the threads", sums.backward),
    ];
    for (how, sum) in ways {
        table.row([how.into(), long(&pen, sum).into(), long(&pen, (sum - sums.forward).abs()).into(), Cell::default()]);
    }
    if sheet.overall && sheet.tallied {
        let threads = format!("taken by threads, of {} measured", long(&pen, sums.measured));
        table.row([threads.into(), long(&pen, sums.make_up_loss).into(), Cell::default(), Cell::default()]);
    }
    Part::Table(table)
}

fn spares(desk: &Desk, sheet: &RunningSheet) -> Part {
    let pen = desk.pen();
    let named: Vec<String> =
        sheet.spares.iter().map(|spare| format!("{} ({})", spare.number, long(&pen, spare.length))).collect();
    Part::text(format!("{} left on the racks: {}.", crate::subject::counted(named.len(), "piece"), named.join(", ")))
}

/// A row below each page.
fn with_subtotals(sheet: &RunningSheet, mut row: impl FnMut(Option<&RunPiece>, usize)) {
    for (page, pieces) in sheet.pieces.chunks(PAGE).enumerate() {
        for piece in pieces {
            row(Some(piece), page);
        }
        row(None, page);
    }
}

fn tally(desk: &Desk, sheet: &RunningSheet) -> Part {
    let pen = desk.pen();
    let long = |length: f64| pen.bare_places(length, Kind::Depth, PLACES);
    let head = |words: &str| pen.head(words, Kind::Depth);
    let lengths = [head(">***measured"), head(">**thread"), head(">***adds"), head(">***string"), head(">***top at")];
    let [measured, thread, adds, string, top] = &lengths;
    let heads = [">**no", "***joint", "***part", measured, thread, adds, string, top, "****note", "**by hand"];
    let mut table = Table::form("tally: tops are those with the shoe at its planned depth", &heads);
    let mut number = 0;
    with_subtotals(sheet, |piece, page| match piece {
        Some(piece) => {
            number += 1;
            let (measured, thread) = piece.measured;
            table.row([
                number.to_string().into(),
                piece.number.as_str().into(),
                piece.kind.word().into(),
                long(measured).into(),
                if sheet.overall && sheet.tallied { long(thread).into() } else { "—".into() },
                long(piece.length).into(),
                Cell { text: long(piece.total), strong: true },
                long(piece.top).into(),
                piece.note.as_str().into(),
                Cell::default(),
            ]);
        }
        None => {
            let Some(sum) = sheet.pages.get(page) else { return };
            let strong = |text: String| Cell { text, strong: true };
            table.row([
                Cell::default(),
                strong(format!("page {}", page + 1)),
                strong(format!("{} pieces", sum.count)),
                Cell::default(),
                Cell::default(),
                strong(long(sum.length)),
                strong(long(sum.total)),
                Cell::default(),
                Cell::default(),
                Cell::default(),
            ]);
        }
    });
    Part::Table(table)
}

fn run(desk: &Desk, sheet: &RunningSheet) -> Part {
    let pen = desk.pen();
    let volume = |words: &str| pen.head(words, Kind::Volume);
    let force = |words: &str| pen.head(words, Kind::Force);
    let (shoe, faster) = (pen.head(">***shoe at", Kind::Depth), pen.head(">***no faster", Kind::Speed));
    let volumes = [volume(">***open, all"), volume(">***float, all"), volume(">**fill"), volume(">***fill, all")];
    let [open, closed, fill, filled] = &volumes;
    let (up, down) = (force(">***up"), force(">***down"));
    let heads = [">**no", "***joint", &shoe, open, closed, fill, filled, &up, &down, &faster, "**back", "**hook"];
    let mut table =
        Table::form("run: volumes displaced, mud to fill, hook loads picked up and lowered, safe speed; read", &heads);
    for (index, piece) in sheet.pieces.iter().enumerate() {
        let volumes = &piece.volumes;
        let speed =
            piece.fastest.map_or_else(|| "—".to_owned(), |speed| fastest(speed, |speed| pen.bare_down(speed, Kind::Speed)));
        table.row([
            (index + 1).to_string().into(),
            piece.number.as_str().into(),
            pen.bare(piece.total.min(sheet.space_out.planned), Kind::Depth).into(),
            pen.bare(volumes.open_total, Kind::Volume).into(),
            pen.bare(volumes.closed_total, Kind::Volume).into(),
            pen.bare(volumes.fill, Kind::Volume).into(),
            pen.bare(volumes.fill_total, Kind::Volume).into(),
            pen.bare_up(piece.hook.up, Kind::Force).into(),
            pen.bare(piece.hook.down, Kind::Force).into(),
            speed.into(),
            Cell::default(),
            Cell::default(),
        ]);
    }
    Part::Table(table)
}
