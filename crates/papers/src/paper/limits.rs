//! The limits card of a section, to be posted: what the shut-in well may show, kick tolerance, filling, trip speeds.

use super::kinds::Body;
use super::trip::fills;
use super::{Cell, Desk, Fact, Part, Table};
use crate::kill_sheet::remark;
use crate::limits_card::CAUTIONS;
use crate::trip_sheet::fastest;
use rigwright_margins::limits_card::{Bound, LimitsCard, Order, WHOLE_ANNULUS, limits_card};
use rigwright_margins::{Answer, Place};
use rigwright_physics::Off;
use rigwright_units::Kind;

pub(super) fn body(desk: &Desk) -> Body {
    let (section, fit) = (desk.section(), desk.subject.fit);
    let hole_depth = fit.well.sections[section].bottom;
    let card = limits_card(fit, &Order { section, hole_depth, as_of: Some(desk.day()) }, &mut Off);
    let mut parts = vec![Part::Facts { facts: facts(desk, &card) }];
    let units = desk.subject.units;
    let beware: Vec<String> = card.cautions.iter().map(|caution| remark(caution, units)).collect();
    if !beware.is_empty() {
        parts.push(Part::strong(format!("Beware: {}.", beware.join("; "))));
    }
    parts.extend(bounds(desk, &card));
    parts.extend(passing(desk, &card));
    match (tolerance(desk, &card), speeds(desk, &card)) {
        // Values in two systems of units leave no room for two tables.
        (Some(tolerance), Some(speeds)) if desk.beside.is_none() => {
            parts.push(Part::Beside { columns: vec![vec![tolerance], vec![speeds]] });
        }
        (tolerance, speeds) => parts.extend(tolerance.into_iter().chain(speeds)),
    }
    if !card.fills.is_empty() {
        parts.push(fills(desk, &card.fills));
    }
    parts.extend(rests(&card));
    let stale = card.stale.iter().map(|stale| remark(stale, units)).collect();
    Body { parts, stale, cautions: CAUTIONS.to_vec() }
}

fn unknown() -> Cell {
    Cell { text: "unknown".to_owned(), strong: true }
}

fn bears(desk: &Desk, value: Option<f64>) -> Cell {
    value.map_or_else(unknown, |value| desk.pen().down(value, Kind::Pressure).into())
}

fn facts(desk: &Desk, card: &LimitsCard) -> Vec<Fact> {
    let pen = desk.pen();
    let fact = |label: &str, value: String, note: String| Fact { label: label.to_owned(), value, note };
    let shoe = card.shoe.map_or_else(|| "no shoe above".to_owned(), |shoe| format!("last shoe {}", pen.show(shoe, Kind::Depth)));
    let least = |bound: Option<&Bound>, read: fn(&Bound) -> Option<f64>, all: bool| match bound {
        Some(bound) if all => (bears(desk, read(bound)).text, bound.name.clone()),
        Some(bound) => (bears(desk, read(bound)).text, format!("{}; other bounds are unknown", bound.name)),
        None => ("unknown".to_owned(), String::new()),
    };
    let (still, by) = least(card.least(), |bound| bound.still, card.governing().is_some());
    let known = card.bounds.iter().all(|bound| bound.pumping.is_some());
    let (pumping, pumping_by) = least(card.least_pumping(), |bound| bound.pumping, known);
    let speed = card.pump_speed.map_or_else(String::new, |speed| format!("at {}, ", pen.show(speed, Kind::StrokeRate)));
    vec![
        fact(
            desk.subject.section(Some(card.order.section)),
            pen.show(card.order.hole_depth, Kind::Depth),
            format!("{} vertical, {shoe}", pen.show(card.vertical_depth, Kind::Depth)),
        ),
        fact("mud in the hole", pen.show(card.mud_weight, Kind::Density), "another mud: another card".to_owned()),
        fact("casing pressure, shut in, at most", still, by),
        fact("while pumping, at most", pumping, format!("{speed}{pumping_by}")),
    ]
}

fn bounds(desk: &Desk, card: &LimitsCard) -> Option<Part> {
    let mut table =
        Table::new("casing pressure with this mud all the way, at most", &["*bound", ">at", ">still", ">pumping", "*from"]);
    for bound in &card.bounds {
        let place = match bound.place {
            Place::Surface => "surface".to_owned(),
            Place::Depth(depth) => desk.pen().show(depth, Kind::Depth),
        };
        let source = if bound.still.is_some() { bound.source.to_owned() } else { format!("wants {}", bound.source) };
        table.row([
            bound.name.as_str().into(),
            place.into(),
            bears(desk, bound.still),
            bears(desk, bound.pumping),
            source.into(),
        ]);
    }
    (!table.rows.is_empty()).then_some(Part::Table(table))
}

fn passing(desk: &Desk, card: &LimitsCard) -> Vec<Part> {
    let (Some(passing), pen) = (&card.passing, desk.pen()) else { return Vec::new() };
    let counted = if card.pump_output.is_some() { "strokes" } else { "pumped" };
    let strokes = |pumped: f64| {
        let by_output = card.pump_output.map(|output| pen.show(pumped / output, Kind::Count));
        by_output.unwrap_or_else(|| pen.show(pumped, Kind::Volume))
    };
    let volume = pen.show(passing.volume, Kind::Volume);
    let caption =
        format!("design kick of {volume} on its way out, driller's method: what the choke may show changes as it passes");
    let count = format!(">{counted}");
    let mut table = Table::new(&caption, &["*", &count, ">choke shows", ">open hole bears", ">equipment bears", "governs"]);
    for at in &passing.instants {
        let governs = match at.open_hole_governs() {
            Some(true) => "open hole",
            Some(false) => "equipment",
            None => "unknown",
        };
        table.row([
            at.what.into(),
            strokes(at.pumped).into(),
            pen.up(at.choke, Kind::Pressure).into(),
            bears(desk, at.open_hole),
            bears(desk, at.equipment),
            governs.into(),
        ]);
    }
    let change = passing.change.map(|pumped| Part::text(format!("What governs changes after {} {counted}.", strokes(pumped))));
    std::iter::once(Part::Table(table)).chain(change).collect()
}

fn tolerance(desk: &Desk, card: &LimitsCard) -> Option<Part> {
    let pen = desk.pen();
    let intensity = desk.subject.fit.well.kick.intensity;
    let intensity = intensity
        .map_or_else(String::new, |intensity| format!("; drilled with {} of intensity", pen.show(intensity, Kind::Density)));
    let heads = [">hole at", ">drilled", ">weakest at", ">swabbed", ">weakest at"];
    let mut table = Table::new(&format!("kick tolerance, as volume at the bottom{intensity}"), &heads);
    for at in &card.tolerance {
        let mut row: Vec<Cell> = vec![pen.show(at.hole_depth, Kind::Depth).into()];
        for answer in [&at.drilled, &at.swabbed] {
            row.extend(match answer {
                Answer::Judged(judged) => {
                    let all = judged.limit.name == WHOLE_ANNULUS;
                    let volume = if all { "whole annulus".to_owned() } else { pen.down(judged.limit.capacity, Kind::Volume) };
                    let place = judged.place.depth().map_or_else(|| "surface".to_owned(), |depth| pen.show(depth, Kind::Depth));
                    [volume.into(), place.into()]
                }
                Answer::Missing(entries) => {
                    [Cell { text: format!("unknown, wants {}", entries.join(", ")), strong: true }, Cell::default()]
                }
                Answer::DoesNotArise(why) => [(*why).into(), Cell::default()],
                Answer::Told(_) => [Cell::default(), Cell::default()],
            });
        }
        table.rows.push(row);
    }
    (!table.rows.is_empty()).then_some(Part::Table(table))
}

fn speeds(desk: &Desk, card: &LimitsCard) -> Option<Part> {
    let pen = desk.pen();
    let caption = "fastest mean speeds over a stand; \"any\": none is too fast";
    let mut table = Table::new(caption, &[">bit or shoe at", ">pulling out", ">running in", ">casing"]);
    let speed = |value: Option<f64>| -> Cell {
        value.map_or_else(|| "—".to_owned(), |value| fastest(value, |value| pen.down(value, Kind::Speed))).into()
    };
    for row in &card.speeds {
        let depth = pen.show(row.bit_depth, Kind::Depth);
        table.row([depth.into(), speed(row.pulling), speed(row.running), speed(row.casing)]);
    }
    (!table.rows.is_empty()).then_some(Part::Table(table))
}

/// What is to be said of each reading; the head has the days of those that have one.
fn rests(card: &LimitsCard) -> Option<Part> {
    let no_day = |date: Option<_>| if date.is_none() { ", no day given" } else { "" };
    let words: Vec<String> =
        card.rests.iter().map(|rest| format!("{} ({}{})", rest.what, rest.note, no_day(rest.date))).collect();
    (!words.is_empty()).then(|| Part::text(format!("It rests on the {}.", words.join(", the "))))
}
