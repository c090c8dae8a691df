//! The mud report: whether retort, weight and filter press agree with each other.

use super::more;
use crate::build::{salt, section_top};
use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::At;

pub(super) fn check(section: &At<'_>, above: &[At<'_>], report: &mut Report) {
    progress(section, section_top(above), report);
    let Some(mud) = section.table("mud") else { return };
    if let Some(retort) = mud.table("retort") {
        shares(&retort, report);
        salt_dissolves(&retort, report);
        densities(&retort, report);
        solids(&mud, &retort, report);
    }
    filtrate(&mud, report);
}

/// Oil, water and solids fill the mud and no more.
fn shares(retort: &At<'_>, report: &mut Report) {
    /// Retorts are read to half a per cent.
    const ROUNDING: f64 = 0.0051;
    let (Some(oil), Some(water)) = (retort.number("oil"), retort.number("water")) else { return };
    let solids = retort.number("solids");
    let sum = oil + water + solids.unwrap_or_default();
    if sum > 1.0 + ROUNDING || (solids.is_some() && sum < 1.0 - ROUNDING) {
        let key = if solids.is_some() { "solids" } else { "water" };
        report.push(
            Finding::error("well::retort", "oil, water and solids of the retort do not add up to the mud")
                .on(retort, key, "with this share")
                .on(retort, "", "in this retort")
                .help("shares are of the volume of the mud; leave `solids` out to have it worked out"),
        );
    }
}

/// No more salt is in the water than dissolves.
fn salt_dissolves(retort: &At<'_>, report: &mut Report) {
    let (Some(fraction), Some(most)) = (retort.number("salt_fraction"), salt(retort).map(|salt| salt.most())) else { return };
    if more(fraction, most) {
        report.push(
            Finding::error("well::salt", "more salt is in the water than dissolves")
                .on(retort, "salt_fraction", "this share")
                .on(retort, if retort.given("salt") { "salt" } else { "" }, "of this salt")
                .help(format!("at most {:.0} % of the mass dissolves", 100.0 * most)),
        );
    }
}

fn densities(retort: &At<'_>, report: &mut Report) {
    let (Some(light), Some(heavy)) = (retort.number("light_density"), retort.number("heavy_density")) else { return };
    if !more(heavy, light) {
        report.push(
            Finding::error("well::solids-density", "the weighting material is no heavier than light solids")
                .on(retort, "heavy_density", "this density")
                .on(retort, "light_density", "is not above this one"),
        );
    }
}

/// The weight of the mud can come from its solids: it is no lighter than the liquids and no heavier than with all solids heavy.
fn solids(mud: &At<'_>, retort: &At<'_>, report: &mut Report) {
    const WATER: f64 = 1000.0;
    /// Dissolved salt counts among the solids of a retort; no common one takes less room in the water than this. [kg/m³]
    const SALT: f64 = 3500.0;
    let (Some(weight), Some(oil), Some(water)) = (mud.number("weight"), retort.number("oil"), retort.number("water")) else {
        return;
    };
    let (Some(oil_density), Some(heavy)) = (retort.number("oil_density"), retort.number("heavy_density")) else { return };
    let share = 1.0 - oil - water;
    if share < 0.0 {
        return;
    }
    let liquid = oil * oil_density + water * WATER;
    // Retorts are read to half a per cent.
    if weight < 0.99 * liquid || weight > liquid + (share + 0.005) * heavy.max(SALT) {
        let lighter = weight < liquid;
        // A heavier mud than was reported may be a plan, or a what-if: the report then waits for the next one.
        let finding = if lighter {
            Finding::error("well::mud-and-solids", "the mud is lighter than its liquids alone")
        } else {
            Finding::caution("well::mud-and-solids", "the mud is heavier than its solids allow")
        };
        report.push(
            finding.on(mud, "weight", "this mud weight").on(retort, "water", "with this retort").help(
                "compare with the mud report; one of the two is wrong, or the weighting material is another: `heavy_density`",
            ),
        );
    }
}

/// Depth and strokes grow together, inside the section.
fn progress(section: &At<'_>, top: Option<f64>, report: &mut Report) {
    let rows = section.list("progress");
    for pair in rows.windows(2) {
        let [early, late] = pair else { continue };
        for key in ["depth", "strokes"] {
            let (Some(before), Some(after)) = (early.number(key), late.number(key)) else { continue };
            if more(before, after) {
                report.push(
                    Finding::error("well::progress", format!("the progress goes back in {key}"))
                        .on(late, key, "this reading")
                        .on(early, key, "is less than the one before")
                        .help("list readings in the order of drilling, on one counter"),
                );
            }
        }
    }
    for row in &rows {
        let Some(depth) = row.number("depth") else { continue };
        let below = section.number("bottom").is_some_and(|bottom| more(depth, bottom));
        if below || top.is_some_and(|top| more(top, depth)) {
            report.push(
                Finding::error("well::progress", "progress was read outside its section")
                    .on(row, "depth", "with the hole at this depth")
                    .on(section, "bottom", "of this section")
                    .help("put it into the section in which it was read"),
            );
        }
    }
}

fn filtrate(mud: &At<'_>, report: &mut Report) {
    let Some(readings) = mud.pairs("filtrate") else { return };
    for pair in readings.windows(2) {
        let [early, late] = pair else { continue };
        if !more(late.value, early.value) {
            report.push(
                Finding::error("well::filtrate", "the filtrate does not grow with time")
                    .at(&late.place, "this reading")
                    .at(&early.place, "is not above this one")
                    .help("write what has passed the press since the start"),
            );
        }
    }
}
