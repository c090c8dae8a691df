//! Pumps, generator sets, preventers and the accumulator.

use super::{more, need, no_twins};
use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::At;

pub(super) fn check(rig: &At<'_>, report: &mut Report) {
    if let Some(pump) = rig.table("pump") {
        rod(&pump, report);
    }
    if let Some(sets) = rig.table("sets") {
        on_line(&sets, report);
        fuel(&sets, report);
        consumers(&sets, report);
    }
    if let Some(lines) = rig.table("surface_lines") {
        surface_lines(&lines, report);
    }
    let stack = rig.list("preventer");
    no_twins(&stack, "preventers", report);
    for preventer in &stack {
        closes_on(preventer, report);
    }
    if let Some(accumulator) = rig.table("accumulator") {
        pressures(&accumulator, report);
    }
}

fn rod(pump: &At<'_>, report: &mut Report) {
    if pump.text("kind") != Some("duplex") {
        return;
    }
    need(pump, &["rod"], "a duplex pump pumps less on the side of the rod", report);
    let (Some(rod), Some(smallest)) = (pump.number("rod"), pump.pairs("liners").and_then(<[_]>::first)) else { return };
    if !more(smallest.key, rod) {
        report.push(
            Finding::error("well::rod", "the rod does not fit the smallest liner")
                .on(pump, "rod", "this rod")
                .at(&smallest.place, "fills this liner"),
        );
    }
}

fn surface_lines(lines: &At<'_>, report: &mut Report) {
    if lines.held("combination").is_none() {
        if !lines.refused("combination") {
            need(lines, &["length", "inside"], "or `combination`, for surface lines of a standard kind", report);
        }
        return;
    }
    if let Some(key) = ["length", "inside"].into_iter().find(|key| lines.held(key).is_some()) {
        report.push(
            Finding::error("well::surface-lines", "surface lines are given both as a pipe and as a standard combination")
                .on(lines, key, "nothing reads this")
                .on(lines, "combination", "beside this")
                .help("leave one of them out; a combination counts its fittings"),
        );
    }
}

fn on_line(sets: &At<'_>, report: &mut Report) {
    let (Some(on), Some(number)) = (sets.whole("on_line"), sets.whole("number")) else { return };
    if on > number {
        report.push(
            Finding::error("well::sets", format!("the rig has {number} sets, not {on}"))
                .on(sets, "on_line", "more sets on line")
                .on(sets, "number", "than there are"),
        );
    }
}

/// A rig on which nothing runs but what a job needs would be the first of its kind.
fn consumers(sets: &At<'_>, report: &mut Report) {
    if let (Some(hotel), Some(auxiliary)) = (sets.number("hotel_load"), sets.number("auxiliary_load"))
        && hotel + auxiliary <= 0.0
    {
        report.push(
            Finding::caution("well::consumers", "nothing draws power but pumps, drawworks and drive")
                .on(sets, "hotel_load", "no lights, camp, shakers, mixers")
                .on(sets, "auxiliary_load", "no charge pumps, blowers, cooling")
                .help("write what these draw; without them sets and fuel look better than they are"),
        );
    }
}

fn fuel(sets: &At<'_>, report: &mut Report) {
    let Some(points) = sets.pairs("fuel") else { return };
    for pair in points.windows(2) {
        let [low, high] = pair else { continue };
        if !more(high.value, low.value) {
            report.push(
                Finding::error("well::fuel", "the fuel rate does not rise with load")
                    .at(&high.place, "this rate")
                    .at(&low.place, "is not above this one"),
            );
        }
    }
    if let Some(point) = points.iter().find(|point| point.key > 1.25) {
        report.push(
            Finding::error("well::fuel", "a set does not run at more than 125 % load")
                .at(&point.place, "this load")
                .help("load is a share of the rating: `\"75 %\"`"),
        );
    }
}

fn closes_on(preventer: &At<'_>, report: &mut Report) {
    let kind = preventer.text("kind");
    if kind == Some("pipe-ram") {
        need(preventer, &["closes_on"], "pipe rams close on some pipe only", report);
    }
    let Some([small, large]) = preventer.ends("closes_on") else { return };
    if more(small, large) {
        report.push(Finding::error("well::closes-on", "the smallest pipe is larger than the largest").on(
            preventer,
            "closes_on",
            "smallest first, then largest",
        ));
    } else if preventer.number("bore").is_some_and(|bore| more(large, bore)) {
        report.push(
            Finding::error("well::closes-on", "the rams close on pipe that does not pass the bore")
                .on(preventer, "closes_on", "this pipe")
                .on(preventer, "bore", "does not pass this bore"),
        );
    } else if kind.is_some_and(|kind| kind != "pipe-ram") {
        report.push(
            Finding::error("well::closes-on", "only pipe rams close on a range of pipe")
                .on(preventer, "closes_on", "nothing reads this")
                .on(preventer, "kind", "for this kind"),
        );
    }
}

fn pressures(accumulator: &At<'_>, report: &mut Report) {
    let steps = [("precharge", "minimum"), ("minimum", "charged"), ("precharge", "charged")];
    for (low, high) in steps {
        let (Some(below), Some(above)) = (accumulator.number(low), accumulator.number(high)) else { continue };
        if !more(above, below) {
            report.push(
                Finding::error("well::accumulator", "the accumulator pressures are out of order")
                    .on(accumulator, high, format!("`{high}`"))
                    .on(accumulator, low, format!("must be above `{low}`"))
                    .help("precharge, then the smallest working pressure, then the charged pressure"),
            );
            return;
        }
    }
}
