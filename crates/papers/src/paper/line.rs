//! The line record: job by job what the drilling line works, where it is slipped and cut, with room for what was measured.

use super::kinds::Body;
use super::{Cell, Desk, Fact, Part, Table};
use crate::kill_sheet::remark;
use crate::subject::counted;
use rigwright_margins::line_record::{LineRecord, MovedOn, line_record};
use rigwright_margins::question;
use rigwright_units::Kind;

const CAUTIONS: &[&str] = &[
    "What the eye sees on the line goes before any count: broken wires, wear, crushed, kinked, burnt or rusted line is cut at \
     once, whatever its work says.",
    "Look each tour at the places that wear most: where the line lies on the drum's first wraps, crossovers and flanges and on \
     the crown when the load is picked up, and at the dead-line anchor. Slip so that none of them comes to lie there again \
     (common practice).",
    "The rules count no drag, no jarring and no move beside the programme: fishing, jarring, stuck pipe, casing worked up and \
     down are added by hand, or measured.",
    "Block hung off, drum and power locked before line is slipped; new line is wound under tension, the dead wraps stay on the \
     drum, clamps and anchor are checked, stops of the block set again and tried with a light load first (common practice; the \
     maker's book governs).",
];

pub(super) fn body(desk: &Desk) -> Body {
    let record = line_record(desk.subject.fit);
    let mut parts = vec![Part::Facts { facts: facts(desk, &record) }, Part::text(rule(desk, &record))];
    let beware: Vec<String> = record.cautions.iter().map(|caution| remark(caution, desk.subject.units)).collect();
    if !beware.is_empty() {
        parts.push(Part::strong(format!("Beware: {}.", beware.join("; "))));
    }
    if !record.moved.is_empty() {
        parts.push(plan(desk, &record));
    }
    parts.push(jobs(desk, &record));
    Body { parts, stale: Vec::new(), cautions: CAUTIONS.to_vec() }
}

fn facts(desk: &Desk, record: &LineRecord) -> Vec<Fact> {
    let (line, drawworks, pen) = (&desk.subject.fit.rig.line, &desk.subject.fit.rig.drawworks, desk.pen());
    let fact = |label: &str, value: String, note: String| Fact { label: label.to_owned(), value, note };
    let rule = line.cut_work.map_or_else(
        || "the rig's rule is not given".to_owned(),
        |work| format!("the rig cuts after {}", pen.down(work, Kind::LineWork)),
    );
    let cuts = match record.cut {
        Some(length) if record.rule.is_some() => {
            format!("{}, {} in all", counted(record.cuts(), "cut"), pen.up(length, Kind::Depth))
        }
        _ => "what the programme cuts is unknown".to_owned(),
    };
    vec![
        fact(
            "line",
            pen.show(line.diameter, Kind::Diameter),
            format!("strength {}; {} lines strung", pen.down(line.strength, Kind::Force), line.strung),
        ),
        fact("line work since the last cut", pen.maybe(line.work_since_cut, Kind::LineWork), rule),
        fact("work of the programme", pen.up(record.total(), Kind::LineWork), cuts),
        fact(
            "line on the reel",
            pen.maybe(line.on_reel, Kind::Depth),
            format!("{} wraps stay on the drum, block at its lowest", pen.show(drawworks.dead_wraps, Kind::Count)),
        ),
    ]
}

/// By which rule, and where it comes from.
fn rule(desk: &Desk, record: &LineRecord) -> String {
    let pen = desk.pen();
    let mut said = match &record.goal {
        Some(goal) => format!(
            "Length cut is line work over the goal: {} for this diameter at a design factor of 5 ({}), times {} for the factor \
             of this line ({}).",
            pen.down(goal.at_five, Kind::WorkPerLength),
            goal.sources[0],
            pen.show(goal.service_factor, Kind::Ratio),
            goal.sources[1]
        ),
        None => "No goal of line work is known for a line of this diameter.".to_owned(),
    };
    if let Some(rule) = record.rule.filter(|rule| rule.slips > 0) {
        said.push_str(&format!(" Between two cuts the line is slipped {}.", counted(rule.slips as usize, "time")));
    }
    let assumes = question("hoisting/slip-and-cut").map_or(&[][..], |question| question.assumes);
    format!("{said} Line work by {}.", assumes.join("; "))
}

fn known(desk: &Desk, value: Option<f64>) -> String {
    value.map_or_else(|| "unknown".to_owned(), |value| desk.pen().show(value, Kind::Depth))
}

/// What is done, in words.
fn what(desk: &Desk, moved: &MovedOn) -> String {
    if moved.cut { format!("CUT {}", known(desk, moved.length)) } else { format!("slip {}", known(desk, moved.slipped)) }
}

fn plan(desk: &Desk, record: &LineRecord) -> Part {
    let pen = desk.pen();
    let mut table = Table::new(
        "slip and cut",
        &[
            "***before",
            "***section",
            ">***hole at",
            ">***bit at",
            ">**after",
            ">****since the cut",
            ">**slip",
            ">**cut",
            ">**laps",
            ">***left on reel",
        ],
    );
    for moved in &record.moved {
        let laps = moved.laps.map_or_else(|| "—".to_owned(), |laps| format!("{laps:.1}"));
        table.row([
            moved.job.job.name().into(),
            desk.subject.section(Some(moved.job.section)).into(),
            pen.show(moved.hole, Kind::Depth).into(),
            pen.show(moved.job.from, Kind::Depth).into(),
            pen.show(moved.job.start, Kind::Time).into(),
            pen.up(moved.since, Kind::LineWork).into(),
            known(desk, moved.slipped).into(),
            Cell { text: if moved.cut { known(desk, moved.length) } else { String::new() }, strong: true },
            if moved.cut { laps.into() } else { "".into() },
            known(desk, moved.on_reel).into(),
        ]);
    }
    Part::Table(table)
}

fn jobs(desk: &Desk, record: &LineRecord) -> Part {
    let pen = desk.pen();
    let work = |words: &str| pen.head(words, Kind::LineWork);
    let (from, to) = (pen.head(">**from", Kind::Depth), pen.head(">**to", Kind::Depth));
    let (done, since) = (work(">***work"), work(">***since the cut"));
    let heads =
        ["****job", &from, &to, &done, &since, "***slip or cut before it", "***work measured", "**length cut", "***by, date"];
    let mut table = Table::form("job by job", &heads);
    let mut section = None;
    for job in &record.jobs {
        // A section is named where its jobs begin.
        let name = (section != Some(job.step.section)).then(|| desk.subject.section(Some(job.step.section)));
        section = Some(job.step.section);
        let words = name.map_or_else(|| job.step.job.name().to_owned(), |name| format!("{name}: {}", job.step.job.name()));
        let before: Vec<String> = job.before.iter().map(|at| what(desk, &record.moved[*at])).collect();
        table.row([
            words.into(),
            pen.bare(job.step.from, Kind::Depth).into(),
            pen.bare(job.step.to, Kind::Depth).into(),
            pen.bare_up(job.step.line_work, Kind::LineWork).into(),
            job.since.map_or_else(|| "unknown".to_owned(), |since| pen.bare_up(since, Kind::LineWork)).into(),
            Cell { text: before.join(", "), strong: true },
            Cell::default(),
            Cell::default(),
            Cell::default(),
        ]);
    }
    Part::Table(table)
}
