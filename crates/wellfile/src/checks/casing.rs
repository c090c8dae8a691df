//! Casing and liners: whether they fit their hole, the casing above, and themselves.

use super::string::known_grade;
use super::{more, tightest};
use crate::build::{casing_drift, casing_inside, section_top};
use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::At;

pub(super) fn check(section: &At<'_>, above: &[At<'_>], rig: &At<'_>, sea_bed: Option<f64>, report: &mut Report) {
    let Some(casing) = section.table("casing") else { return };
    depths(&casing, section, above, sea_bed, report);
    fits(&casing, section, above, report);
    itself(&casing, report);
    leak_off(&casing, report);
    super::hoist::lines(&casing, "lines", rig, report);
    floated(&casing, report);
    cement_strength(&casing, report);
}

/// Readings of the strength rise, and the plan leaves the time that they ask for.
fn cement_strength(casing: &At<'_>, report: &mut Report) {
    let falls = casing.pairs("cement_strength").and_then(|pairs| pairs.windows(2).find(|pair| pair[1].value <= pair[0].value));
    if let Some(pair) = falls {
        report.push(
            Finding::error("well::cement-strength", "the strength of the cement does not rise from one reading to the next")
                .at(&pair[1].place, "no more than the reading before")
                .help("write the rising part of the laboratory's report, time by time"),
        );
    }
    let flat = casing.number("flat_time").filter(|_| casing.given("flat_time"));
    let wait = casing.number("wait_to_drill_out");
    if wait.zip(flat).is_some_and(|(wait, flat)| more(wait, flat)) {
        report.push(
            Finding::caution("well::flat-time", "the wait on cement is longer than the plan leaves between shoe and drilling on")
                .on(casing, "wait_to_drill_out", "this wait")
                .on(casing, "flat_time", "this time for cementing, waiting, preventers and test")
                .help("`flat_time` counts into the days of the well: it holds the wait and what is done beside it"),
        );
    }
}

fn floated(casing: &At<'_>, report: &mut Report) {
    let (Some(floated), Some(shoe)) = (casing.number("floated"), casing.number("shoe")) else { return };
    // A string without a top of its own reaches to the head; one on the sea bed has still less of it.
    let top = casing.number("top").unwrap_or(0.0);
    if shoe > top && more(floated, shoe - top) {
        report.push(
            Finding::error("well::floated", "more is run empty than there is of the string")
                .on(casing, "floated", "this length from the shoe up")
                .on(casing, "shoe", "is longer than the string to this shoe")
                .help("`floated` is at most the length from `top` to `shoe`"),
        );
    }
}

fn depths(casing: &At<'_>, section: &At<'_>, above: &[At<'_>], sea_bed: Option<f64>, report: &mut Report) {
    let Some(shoe) = casing.number("shoe") else { return };
    if section.number("bottom").is_some_and(|bottom| more(shoe, bottom)) {
        report.push(
            Finding::error("well::shoe-depth", "the shoe is below the hole")
                .on(casing, "shoe", "this shoe")
                .on(section, "bottom", "is below the end of the section")
                .help("a shoe stands a little above the bottom of its section"),
        );
    }
    let before = above.iter().rev().find_map(|other| other.table("casing"));
    let shoe_above = before.as_ref().and_then(|before| Some((before, before.number("shoe")?)));
    if let Some((before, _)) = shoe_above.filter(|(_, depth)| !more(shoe, *depth)) {
        report.push(
            Finding::error("well::shoe-depth", "the shoe is not below the shoe above")
                .on(casing, "shoe", "this shoe")
                .on(before, "shoe", "is not below this one")
                .help("list sections in the order of drilling; each casing ends deeper than the one before"),
        );
    } else if section_top(above).is_some_and(|top| more(top, shoe)) {
        report.push(Finding::error("well::shoe-depth", "the shoe is above its section").on(casing, "shoe", "this shoe").on(
            section,
            "",
            "its section begins below",
        ));
    }
    hanger(casing, shoe, shoe_above, sea_bed, report);
    if casing.number("empty_to").is_some_and(|level| more(level, shoe)) {
        report.push(
            Finding::error("well::empty-to", "the casing is to stand empty below its shoe")
                .on(casing, "empty_to", "this depth")
                .on(casing, "shoe", "is below this shoe")
                .help("the deepest it can stand empty is its shoe"),
        );
    }
    if let Some(cement) = casing.number("cement_top") {
        if more(cement, shoe) {
            report.push(
                Finding::error("well::cement-top", "the top of cement is below the shoe")
                    .on(casing, "cement_top", "this top")
                    .on(casing, "shoe", "is below this shoe"),
            );
        } else if casing.number("top").is_some_and(|top| more(top, cement)) {
            report.push(
                Finding::caution("well::cement-top", "the top of cement is above the hanger")
                    .on(casing, "cement_top", "this top")
                    .on(casing, "top", "is above this hanger")
                    .help("cement above a liner is usually drilled out or circulated away"),
            );
        }
    }
}

fn hanger(casing: &At<'_>, shoe: f64, shoe_above: Option<(&At<'_>, f64)>, sea_bed: Option<f64>, report: &mut Report) {
    let head = sea_bed.unwrap_or(0.0);
    let Some(top) = casing.number("top") else { return };
    if more(head, top) {
        report.push(
            Finding::error("well::hanger", "the casing reaches above the sea bed")
                .on(casing, "top", "this upper end")
                .help("under a floating rig casing hangs in its head on the sea bed: leave `top` out"),
        );
    }
    if !more(top, head) {
        return;
    }
    if !more(shoe, top) {
        report.push(Finding::error("well::hanger", "the hanger is not above the shoe").on(casing, "top", "this hanger").on(
            casing,
            "shoe",
            "is not above this shoe",
        ));
        return;
    }
    match shoe_above {
        None => report.push(
            Finding::error("well::hanger", "there is no casing to hang a liner in")
                .on(casing, "top", "a liner begins here")
                .help("leave `top` out for casing that reaches to surface"),
        ),
        Some((before, depth)) if !more(depth, top) => report.push(
            Finding::error("well::hanger", "the hanger is below the casing it should hang in")
                .on(casing, "top", "this hanger")
                .on(before, "shoe", "is not above this shoe")
                .help("a liner overlaps the casing above, by 50 to 150 m as a rule"),
        ),
        Some(_) => {}
    }
}

fn fits(casing: &At<'_>, section: &At<'_>, above: &[At<'_>], report: &mut Report) {
    for key in ["outside", "coupling"] {
        let Some(outside) = casing.number(key) else { continue };
        if section.number("hole").is_some_and(|hole| more(outside, hole)) {
            report.push(
                Finding::error("well::casing-does-not-fit", "the casing is wider than its hole")
                    .on(casing, key, "this diameter")
                    .on(section, "hole", "does not fit this hole"),
            );
            return;
        }
        let Some((wall, drift)) = tightest(above) else { continue };
        if more(outside, drift) {
            let at = if wall.given("drift") { "drift" } else { "inside" };
            report.push(
                Finding::error("well::casing-does-not-pass", "the casing does not pass the drift of the casing above")
                    .on(casing, key, "this diameter")
                    .on(&wall, at, "does not pass here")
                    .help("take narrower casing, or wider casing above; give `drift` where that casing was drifted larger"),
            );
            return;
        }
    }
}

fn itself(casing: &At<'_>, report: &mut Report) {
    let (outside, inside) = (casing.number("outside"), casing_inside(casing));
    if inside.is_none() && !casing.refused("inside") && outside.is_some() && casing.held("weight").is_some() {
        report.push(
            Finding::error("well::unknown-size", "no casing of this size has this weight")
                .on(casing, "weight", "this weight")
                .on(casing, "outside", "at this size")
                .help("write its inside diameter: `inside = \"8.681 in\"`"),
        );
    }
    if let (Some(outside), Some(inside)) = (outside, inside) {
        if !more(outside, inside) {
            report.push(
                Finding::error("well::no-wall", "the casing is as wide inside as outside")
                    .on(casing, "inside", "this inside diameter")
                    .on(casing, "outside", "leaves no wall in this outside diameter"),
            );
        } else if casing_drift(casing).is_some_and(|drift| drift <= 0.0 || more(drift, inside)) {
            report.push(
                Finding::error("well::drift", "the drift is not inside the casing").on(casing, "drift", "this drift").on(
                    casing,
                    "inside",
                    "against this inside diameter",
                ),
            );
        }
    }
    if let (Some(coupling), Some(outside)) = (casing.number("coupling"), outside)
        && more(outside, coupling)
    {
        report.push(
            Finding::error("well::coupling", "the coupling is narrower than its pipe")
                .on(casing, "coupling", "this coupling")
                .on(casing, "outside", "is narrower than this"),
        );
    }
    if let Some(grade) = casing.text("grade").filter(|_| casing.held("yield").is_none()) {
        known_grade(casing, grade, report);
    }
}

fn leak_off(casing: &At<'_>, report: &mut Report) {
    if casing.held("leak_off").is_some() || casing.refused("leak_off") {
        return;
    }
    for key in ["leak_off_date", "leak_off_kind"] {
        if casing.given(key) {
            report.push(
                Finding::error("well::leak-off", "a leak-off test without a result")
                    .on(casing, key, "this test")
                    .help("add `leak_off = \"14.0 ppg\"`, the equivalent mud weight at the shoe"),
            );
        }
    }
}
