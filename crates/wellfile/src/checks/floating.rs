//! What only a floating rig has: sea, riser, returns to the sea bed, booster. Said once where it belongs, and refused elsewhere.

use super::{more, need};
use crate::build::{casing_outside, sea_bed, to_sea_bed, well_kind};
use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::At;
use rigwright_physics::trajectory::Path;
use rigwright_well::WellKind;

/// How far the sea bed may lie off the upright, in depth. [m]
const UPRIGHT: f64 = 0.1;

pub(super) fn check(well: &At<'_>, rig: &At<'_>, path: Option<&Path>, report: &mut Report) {
    let Some(kind) = well_kind(well) else { return };
    if kind != WellKind::Floating {
        strangers(well, report);
        return;
    }
    need_table(well, report);
    if let Some(sea) = well.table("sea").filter(|sea| sea.given("heave")) {
        need(&sea, &["heave_period"], "heave needs its period", report);
    }
    let Some(bed) = sea_bed(well) else { return };
    upright(well, path, bed, report);
    let sections = well.list("section");
    if let Some((first, bottom)) = sections.first().and_then(|first| Some((first, first.number("bottom")?)))
        && !more(bottom, bed)
    {
        report.push(
            Finding::error("well::sea-bed", "the first section ends above the sea bed")
                .on(first, "bottom", "this end")
                .on(well, "water_depth", "the sea bed lies below it")
                .help("depths are measured from the datum: elevation and water depth together reach down to the sea bed"),
        );
    }
    returns(&sections, report);
    let through: Vec<&At<'_>> = sections.iter().filter(|section| !to_sea_bed(section)).collect();
    let Some(riser) = rig.table("riser") else {
        if let Some(section) = through.first() {
            report.push(
                Finding::error("well::riser", "the rig has no riser for this floating well")
                    .on(well, "kind", "this kind of well")
                    .on(section, "", "this section is drilled through a riser")
                    .help("give `[riser]` in the rig file, or `returns = \"sea-bed\"` in sections that are drilled before it"),
            );
        }
        return;
    };
    for section in through {
        passes(section, &riser, report);
    }
}

/// Entries of a floating rig in a well that has none.
fn strangers(well: &At<'_>, report: &mut Report) {
    let nothing = "nothing reads this";
    let mut refuse = |at: &At<'_>, key: &str| {
        report.push(
            Finding::error("well::not-floating", "only a floating rig has this")
                .on(at, key, nothing)
                .on(well, "kind", "for this kind of well")
                .help("leave it out, or write `kind = \"floating\"`"),
        );
    };
    if let Some(sea) = well.table("sea") {
        refuse(&sea, "");
    }
    for section in well.list("section") {
        if to_sea_bed(&section) {
            refuse(&section, "returns");
        }
        if let Some(drilling) = section.table("drilling").filter(|drilling| drilling.given("booster")) {
            refuse(&drilling, "booster");
        }
        for rate in section.list("slow_rate").iter().filter(|rate| rate.given("choke_line_loss")) {
            refuse(rate, "choke_line_loss");
        }
    }
}

fn need_table(well: &At<'_>, report: &mut Report) {
    if well.table("sea").is_none() {
        report.push(
            Finding::error("well::missing", "`[sea]` is missing: the rig floats")
                .on(well, "kind", "this kind of well")
                .help("add, with your values:\n[sea]\ndensity = \"1.025 sg\"\nheave = \"2 m\"\nheave_period = \"10 s\""),
        );
    }
}

fn upright(well: &At<'_>, path: Option<&Path>, bed: f64, report: &mut Report) {
    let leans = path.is_some_and(|path| (path.vertical_depth_at(bed) - bed).abs() > UPRIGHT);
    if leans {
        report.push(
            Finding::error("well::riser-upright", "the hole leans above the sea bed")
                .on(well, "survey", "this path")
                .on(well, "water_depth", "down to the sea bed it has to be upright")
                .help("riser and lines are reckoned upright; let the survey begin to build below the sea bed"),
        );
    }
}

/// Once there is a riser, it stays.
fn returns(sections: &[At<'_>], report: &mut Report) {
    for pair in sections.windows(2) {
        let [before, section] = pair else { continue };
        if !to_sea_bed(before) && to_sea_bed(section) {
            report.push(
                Finding::error("well::returns", "a section without riser follows one with it")
                    .on(section, "returns", "without riser")
                    .on(before, "", "drilled through the riser")
                    .help("only the first sections are drilled before riser and preventers are run"),
            );
        }
    }
    for section in sections.iter().filter(|section| to_sea_bed(section)) {
        if let Some(drilling) = section.table("drilling").filter(|drilling| drilling.given("booster")) {
            report.push(
                Finding::error("well::booster", "there is no riser to pump into").on(&drilling, "booster", "this flow").on(
                    section,
                    "returns",
                    "the mud goes to the sea bed",
                ),
            );
        }
    }
}

/// Bit and casing pass the riser.
fn passes(section: &At<'_>, riser: &At<'_>, report: &mut Report) {
    let Some(inside) = riser.number("inside") else { return };
    let casing = section.table("casing");
    let widths = [(Some(*section), "hole", section.number("hole"))];
    let casing_width = casing.as_ref().and_then(casing_outside);
    for (at, key, width) in widths.into_iter().chain([(casing, "outside", casing_width)]) {
        if let (Some(at), Some(width)) = (at, width)
            && !more(inside, width)
        {
            report.push(
                Finding::error("well::riser-does-not-pass", "what goes in does not pass the riser")
                    .on(&at, key, "this diameter")
                    .on(riser, "inside", "does not pass here")
                    .help("drill and case it before the riser is run: `returns = \"sea-bed\"`"),
            );
        }
    }
}
