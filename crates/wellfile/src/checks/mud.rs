//! The mud report: viscometer readings and gels.

use super::{need, no_twins};
use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::{At, Pair};
use rigwright_physics::Off;
use rigwright_physics::circulating::choose::best_fit;
use rigwright_physics::circulating::rheology::DialConvention;
use rigwright_physics::circulating::viscometer::Reading;

pub(super) fn check(section: &At<'_>, report: &mut Report) {
    if let Some(mud) = section.table("mud") {
        one(&mud, report);
    }
    let candidates = section.list("candidate_mud");
    no_twins(&candidates, "candidate muds", report);
    for candidate in &candidates {
        one(candidate, report);
    }
}

fn one(mud: &At<'_>, report: &mut Report) {
    if let Some(readings) = mud.pairs("readings") {
        wanted(mud, readings, report);
        rising(readings, report);
        yield_point(readings, report);
        fitted(mud, readings, report);
    }
    temperatures(mud, report);
    rough(mud, report);
    if mud.ends("gels").is_some_and(|[early, late]| late < early) {
        report.push(
            Finding::error("well::gels", "the gel strength falls with time")
                .on(mud, "gels", "after 10 s, after 10 min")
                .help("write the 10 s gel first"),
        );
    }
}

/// Readings at other temperatures stand beside the first ones, whose temperature must be known and another.
fn temperatures(mud: &At<'_>, report: &mut Report) {
    let others = mud.list("more_readings");
    if others.is_empty() {
        return;
    }
    if mud.held("temperature").is_none() {
        need(mud, &["temperature"], "readings at other temperatures are held against it", report);
    }
    let mut seen = vec![*mud];
    for other in others {
        if let Some(readings) = other.pairs("readings") {
            wanted(&other, readings, report);
            rising(readings, report);
        }
        let near = |a: &At<'_>| Some((a.number("temperature")? - other.number("temperature")?).abs() < 1.0);
        if let Some(twin) = seen.iter().find(|seen| near(seen) == Some(true)) {
            report.push(
                Finding::error("well::readings", "two sets of readings have the same temperature")
                    .on(&other, "temperature", "this one")
                    .on(twin, "temperature", "and this one")
                    .help("readings in between are interpolated: give each set its own temperature"),
            );
        }
        seen.push(other);
    }
}

/// Roughness counts in clear fluids: they hold no yield stress and read twice as much at twice the speed.
fn rough(mud: &At<'_>, report: &mut Report) {
    let (Some(_), Some(readings)) = (mud.held("roughness"), mud.pairs("readings")) else { return };
    let (Some(fast), Some(slow)) = (dial(readings, 600.0), dial(readings, 300.0)) else { return };
    // A dial is read to half a degree.
    if 2.0 * slow.value - fast.value > 1.5 {
        report.push(
            Finding::caution("well::roughness", "a roughness is given for a mud that is no clear fluid")
                .on(mud, "roughness", "this roughness")
                .at(&slow.place, "twice this reading is more than that at 600 rpm: the mud has a yield point")
                .help("leave it out: with a mud the walls are customarily reckoned as smooth"),
        );
    }
}

fn dial(readings: &[Pair], speed: f64) -> Option<&Pair> {
    readings.iter().find(|pair| (pair.key - speed).abs() < 1e-6)
}

fn wanted(mud: &At<'_>, readings: &[Pair], report: &mut Report) {
    let missing: Vec<&str> = [(600.0, "600"), (300.0, "300")]
        .into_iter()
        .filter(|(speed, _)| dial(readings, *speed).is_none())
        .map(|(_, name)| name)
        .collect();
    if !missing.is_empty() {
        report.push(
            Finding::error("well::readings", format!("the reading at {} rpm is missing", missing.join(" and ")))
                .on(mud, "readings", "viscometer readings")
                .help("every flow model needs the readings at 600 and 300 rpm; add those at 6 and 3 rpm for the yield stress"),
        );
    }
}

fn rising(readings: &[Pair], report: &mut Report) {
    for pair in readings.windows(2) {
        let [slow, fast] = pair else { continue };
        // Two equal readings at low speed are common; at 600 and 300 rpm they would be a mud without viscosity.
        let equal = (slow.value - fast.value).abs() < 1e-9;
        if fast.value < slow.value || (equal && slow.key >= 299.0) {
            report.push(
                Finding::error("well::readings", "the viscometer readings do not rise with speed")
                    .at(&fast.place, "this reading")
                    .at(&slow.place, "is not above this one")
                    .help("compare with the mud report; a drilling mud resists more, the faster it is sheared"),
            );
        }
    }
    if let Some(still) = dial(readings, 300.0).filter(|pair| pair.value <= 0.0) {
        let finding = Finding::error("well::readings", "the reading at 300 rpm is zero").at(&still.place, "no viscosity at all");
        report.push(finding.help("water reads 1 at 300 rpm and 2 at 600 rpm"));
    }
}

/// Says when no flow model comes near the readings: a slip in one of them is likelier than such a mud.
fn fitted(mud: &At<'_>, readings: &[Pair], report: &mut Report) {
    /// Dials are read to half a degree or a degree; no mud needs more than this.
    const FAR: f64 = 0.12;
    let read: Vec<Reading> = readings.iter().map(|pair| Reading { speed_rpm: pair.key, dial: pair.value }).collect();
    let Ok((_, best)) = best_fit(&read, DialConvention::Trade, &mut Off) else { return };
    if best.error.is_some_and(|error| error > FAR) {
        let worst = format!("the best, {}, misses a reading by {:.0} %", best.model.name(), 100.0 * best.worst.abs());
        report.push(
            Finding::caution("well::readings-fit", "no flow model runs through the viscometer readings")
                .on(mud, "readings", worst)
                .help("compare with the mud report; losses, surge and cleaning rest on these readings"),
        );
    }
}

fn yield_point(readings: &[Pair], report: &mut Report) {
    let (Some(fast), Some(slow)) = (dial(readings, 600.0), dial(readings, 300.0)) else { return };
    if 2.0 * slow.value < fast.value - 1e-9 && slow.value > 0.0 && fast.value > slow.value {
        report.push(
            Finding::caution("well::yield-point", "the yield point comes out negative")
                .at(&slow.place, "twice this reading")
                .at(&fast.place, "is less than this one")
                .help("compare with the mud report; a mud that thickens with shear is rare"),
        );
    }
}
