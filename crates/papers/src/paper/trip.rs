//! The trip sheet: stand by stand what the hole should take or give, with room for what was measured.

use super::kinds::{Body, TRIP_SHEET};
use super::{Cell, Desk, Fact, Paper, Part, Table};
use crate::kill_sheet::remark;
use crate::trip_sheet::{CAUTIONS, fastest, run_words};
use rigwright_margins::kill_sheet::Constants;
use rigwright_margins::trip_sheet::{Fill, Order, Run, TripSheet, Way, trip_sheet};
use rigwright_physics::Off;
use rigwright_units::Kind;

/// The way out of a section, as pipe is planned to come: dry where there is a slug, else wet.
pub fn trip_order(desk: &Desk) -> Order {
    let section = desk.section();
    let this = &desk.subject.fit.well.sections[section];
    Order { section, hole_depth: this.bottom, bit_depth: this.bottom, run: Run::Out { wet: this.tripping.slug.is_none() } }
}

pub(super) fn body(desk: &Desk) -> Body {
    match trip_sheet(desk.subject.fit, &trip_order(desk), &mut Off) {
        Ok(sheet) => of_sheet(desk, &sheet),
        Err(why) => {
            let words = why.iter().map(|why| Part::strong(format!("No trip sheet: {}.", remark(why, desk.subject.units))));
            Body::plain(words.collect())
        }
    }
}

/// A trip sheet of its own order.
pub fn trip_paper(desk: &Desk, sheet: &TripSheet) -> Paper {
    TRIP_SHEET.with(desk, of_sheet(desk, sheet))
}

fn of_sheet(desk: &Desk, sheet: &TripSheet) -> Body {
    let mut parts = vec![Part::Facts { facts: facts(desk, sheet) }];
    if sheet.constants != Constants::EXACT {
        parts.push(Part::text(format!("By {}, for filling and the slug; all else exact.", sheet.constants.name)));
    }
    let beware: Vec<String> = sheet.cautions.iter().map(|caution| remark(caution, desk.subject.units)).collect();
    if !beware.is_empty() {
        parts.push(Part::strong(format!("Beware: {}.", beware.join("; "))));
    }
    if !sheet.kinds.is_empty() {
        parts.push(fills(desk, &sheet.kinds));
    }
    parts.extend(pulling(desk, sheet));
    parts.push(rows(desk, sheet));
    Body { parts, stale: Vec::new(), cautions: CAUTIONS.to_vec() }
}

fn facts(desk: &Desk, sheet: &TripSheet) -> Vec<Fact> {
    let pen = desk.pen();
    let fact = |label: &str, value: String, note: String| Fact { label: label.to_owned(), value, note };
    let out = matches!(sheet.order.run, Run::Out { .. });
    let tanks = sheet.trip_tank.zip(sheet.tanks()).map_or_else(
        || "the trip tank's volume is not given".to_owned(),
        |(tank, tanks)| format!("trip tank of {}: {} in all", pen.show(tank, Kind::Volume), pen.show(tanks, Kind::Count)),
    );
    let section = desk.subject.section(Some(sheet.order.section));
    let output = sheet.pump_output.map_or_else(
        || "pump output unknown".to_owned(),
        |output| format!("{} of one pump", pen.show(output, Kind::VolumePerStroke)),
    );
    vec![
        fact(
            if out { "bit from" } else { "bit or shoe to" },
            pen.show(sheet.order.bit_depth, Kind::Depth),
            format!("{section}, hole at {}; {}", pen.show(sheet.order.hole_depth, Kind::Depth), run_words(sheet.order.run)),
        ),
        fact("mud in the hole", pen.show(sheet.mud_weight, Kind::Density), output),
        fact("planned speed", pen.show(sheet.speed, Kind::Speed), "the mean over a stand".to_owned()),
        fact(if out { "the hole takes in all" } else { "the hole gives in all" }, pen.show(sheet.total(), Kind::Volume), tanks),
    ]
}

/// Filling by kind of pipe.
pub(super) fn fills(desk: &Desk, fills: &[Fill]) -> Part {
    let pen = desk.pen();
    let mut table = Table::new(
        "filling by kind of pipe, for one stand or joint; falls are those unfilled",
        &["*pipe", "", ">fill", ">strokes", ">level by", ">pressure by", "fill after"],
    );
    for fill in fills {
        let mut row = |name: String, how: &str, way: &Way| {
            let s = if way.before > 1.5 { "s" } else { "" };
            let before = format!("{} {}{s}", pen.show(way.before, Kind::Count), fill.each.word());
            table.row([
                name.into(),
                how.into(),
                pen.show(way.volume, Kind::Volume).into(),
                way.strokes.map_or_else(|| "—".to_owned(), |strokes| pen.show(strokes, Kind::Count)).into(),
                pen.show(way.fall, Kind::Depth).into(),
                pen.show(way.drop, Kind::Pressure).into(),
                if way.before < 1.0 { "while pulling".into() } else { before.into() },
            ]);
        };
        row(format!("{}, {} of {}", fill.name, fill.each.word(), pen.show(fill.length, Kind::Depth)), "dry", &fill.dry);
        row(String::new(), "wet", &fill.wet);
    }
    Part::Table(table)
}

/// The slug, what swabbing takes, the trip margin.
fn pulling(desk: &Desk, sheet: &TripSheet) -> Vec<Part> {
    let pen = desk.pen();
    let mut said = Vec::new();
    if let Some(slug) = &sheet.slug {
        said.push(Part::text(format!(
            "Slug: {} of {}, leaves {} of pipe dry; {} come back while it falls, which is no influx.",
            pen.show(slug.volume, Kind::Volume),
            pen.show(slug.weight, Kind::Density),
            pen.show(slug.dry_length, Kind::Depth),
            pen.show(slug.gain, Kind::Volume)
        )));
    }
    if let Some((row, moved)) = sheet.tightest.as_ref().and_then(|row| Some((row, row.moved?))) {
        let out = matches!(sheet.order.run, Run::Out { .. });
        let bit = if out { row.bit_depth + row.length } else { row.bit_depth };
        said.push(Part::text(format!(
            "{} at the planned speed: {} at {} with the bit at {}; {} left there of still mud's room less the wanted margin. No \
             faster there than {}.",
            if out { "Swab" } else { "Surge" },
            pen.up(moved.change, Kind::Pressure),
            pen.show(moved.weakest, Kind::Depth),
            pen.show(bit, Kind::Depth),
            pen.down(moved.left, Kind::Pressure),
            fastest(moved.fastest, |speed| pen.down(speed, Kind::Speed))
        )));
    }
    if let Some(margin) = &sheet.margin {
        let density = |value: Option<f64>| value.map_or_else(|| "unknown".to_owned(), |value| pen.up(value, Kind::Density));
        said.push(Part::text(format!(
            "Trip margin: {} wanted; swabbing takes {}; the old rule from the yield point asks for {}.",
            pen.show(margin.wanted, Kind::Density),
            density(margin.swab),
            density(margin.by_yield)
        )));
    }
    said
}

fn rows(desk: &Desk, sheet: &TripSheet) -> Part {
    let pen = desk.pen();
    let out = matches!(sheet.order.run, Run::Out { .. });
    let moved_head = if out { ">swab" } else { ">surge" };
    let caption = if out { "what the hole should take" } else { "what the hole should give" };
    let heads = [">no", ">bit at", "what", ">expected", ">in all", "measured", "in all", "differs", moved_head, ">no faster"];
    let mut table = Table::form(caption, &heads);
    for row in &sheet.rows {
        let moved = row.moved.as_ref();
        let unknown = || Cell::from("—");
        table.row([
            row.count.to_string().into(),
            pen.show(row.bit_depth, Kind::Depth).into(),
            row.what.as_str().into(),
            Cell { text: pen.show(row.volume, Kind::Volume), strong: true },
            pen.show(row.total, Kind::Volume).into(),
            Cell::default(),
            Cell::default(),
            Cell::default(),
            moved.map_or_else(unknown, |moved| pen.up(moved.change, Kind::Pressure).into()),
            moved.map_or_else(unknown, |moved| fastest(moved.fastest, |speed| pen.down(speed, Kind::Speed)).into()),
        ]);
    }
    Part::Table(table)
}
