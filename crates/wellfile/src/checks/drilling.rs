//! Drilling parameters and slow rates against the rig and the hole.

use super::more;
use crate::build::{liner, section_top};
use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::At;
use rigwright_physics::Formula;
use rigwright_physics::circulating::pumps::{DoubleActingOutput, SingleActingOutput};

pub(super) fn check(section: &At<'_>, above: &[At<'_>], rig: &At<'_>, report: &mut Report) {
    if let Some((drilling, pump)) = section.table("drilling").zip(rig.table("pump")) {
        pumps(&drilling, &pump, report);
        liners(&drilling, &pump, report);
        flow(&drilling, &pump, report);
    }
    if let Some(drilling) = section.table("drilling") {
        core(&drilling, section, section_top(above), report);
    }
    for reading in section.list("hook_load") {
        hook_load(&reading, section, report);
    }
    for rate in section.list("slow_rate") {
        slow_rate(&rate, section, section_top(above), report);
        slow_rate_mud(&rate, section, report);
        if let Some(pump) = rig.table("pump") {
            liners(&rate, &pump, report);
            read_with(&rate, &pump, report);
        }
    }
    slug(section, report);
}

/// Mud weights closer than this are one: what a mud balance can read. [kg/m³]
const SAME_WEIGHT: f64 = 6.0;

/// A slow rate that was read with another mud makes every kill sheet stale.
fn slow_rate_mud(rate: &At<'_>, section: &At<'_>, report: &mut Report) {
    const HELP: &str = "read it again with the mud in the hole: until then every kill sheet from it is marked STALE";
    let Some(mud) = section.table("mud") else { return };
    if let (Some(read), Some(weight)) = (rate.number("weight"), mud.number("weight"))
        && (read - weight).abs() > SAME_WEIGHT
    {
        report.push(
            Finding::caution("well::slow-rate-mud", "a slow rate was read with another mud")
                .on(rate, "weight", "read with this mud")
                .on(&mud, "weight", "this one is in the hole")
                .help(HELP),
        );
    }
    if let (Some(read), Some(mixed)) = (rate.day("date"), mud.day("date"))
        && read < mixed
    {
        report.push(
            Finding::caution("well::slow-rate-mud", "a slow rate is older than the mud")
                .on(rate, "date", "read on this day")
                .on(&mud, "date", "before this report of the mud")
                .help(HELP),
        );
    }
}

/// A slug no heavier than the mud leaves no pipe dry.
fn slug(section: &At<'_>, report: &mut Report) {
    let slug = section.table("tripping").and_then(|tripping| tripping.table("slug"));
    let (Some(slug), Some(mud)) = (slug, section.table("mud")) else { return };
    let (Some(weight), Some(in_hole)) = (slug.number("weight"), mud.number("weight")) else { return };
    if weight <= in_hole {
        report.push(
            Finding::caution("well::slug", "the slug is not heavier than the mud")
                .on(&slug, "weight", "this slug")
                .on(&mud, "weight", "in this mud leaves no pipe dry")
                .help("one to two ppg above the mud are usual; leave the table out where pipe is pulled wet"),
        );
    }
}

fn pumps(drilling: &At<'_>, pump: &At<'_>, report: &mut Report) {
    let (Some(on), Some(number)) = (drilling.whole("pumps"), pump.whole("number")) else { return };
    if on <= number && drilling.given("booster") && on + 1 > number {
        report.push(
            Finding::error("well::pumps", "no pump is left for the booster line")
                .on(drilling, "pumps", "all pumps are on the string")
                .on(drilling, "booster", "this flow wants one of its own"),
        );
    }
    if on > number {
        report.push(
            Finding::error("well::pumps", format!("the rig has {number} pumps, not {on}"))
                .on(drilling, "pumps", "more pumps on")
                .on(pump, "number", "than there are"),
        );
    }
}

fn read_with(rate: &At<'_>, pump: &At<'_>, report: &mut Report) {
    let (Some(with), Some(number)) = (rate.whole("pump"), pump.whole("number")) else { return };
    if with > number {
        report.push(
            Finding::error("well::pumps", format!("the rig has no pump number {with}"))
                .on(rate, "pump", "read with this one")
                .on(pump, "number", "of so many"),
        );
    }
}

fn liners(drilling: &At<'_>, pump: &At<'_>, report: &mut Report) {
    let (Some(wanted), Some(liners)) = (drilling.number("liner"), pump.pairs("liners")) else { return };
    if liner(liners, wanted).is_none() {
        let offered: Vec<&str> = liners.iter().map(|pair| pair.place.source.slice(&pair.place.span)).collect();
        report.push(
            Finding::error("well::liner", format!("the pumps have no liner of `{}`", drilling.written("liner")))
                .on(drilling, "liner", "this liner")
                .on(pump, "liners", "is not among these")
                .help(format!("the rig offers {}", offered.join(", "))),
        );
    }
}

fn core(drilling: &At<'_>, section: &At<'_>, top: Option<f64>, report: &mut Report) {
    let (Some(cored), Some(top), Some(bottom)) = (drilling.number("cored"), top, section.number("bottom")) else { return };
    // Sections out of order are told elsewhere.
    if bottom > top && more(cored, bottom - top) {
        report.push(
            Finding::error("well::cored", "more is cored than the section is long")
                .on(drilling, "cored", "this much core")
                .on(section, "bottom", "in a section that ends here")
                .help("give the length that is cored at the end of this section"),
        );
    }
}

/// Some liner makes the flow with all pumps at their highest speed. Whether the liners fitted do is asked in the review.
fn flow(drilling: &At<'_>, pump: &At<'_>, report: &mut Report) {
    let (Some(wanted), Some(number)) = (drilling.number("flow"), pump.whole("number")) else { return };
    let (Some(speed), Some(liners)) = (pump.number("speed"), pump.pairs("liners")) else { return };
    let widest = liners.iter().max_by(|a, b| a.key.total_cmp(&b.key));
    let Some((widest, output)) = widest.and_then(|pair| Some((pair, pump_output(pump, pair.key)?))) else { return };
    if more(wanted, output * speed * f64::from(number)) {
        report.push(
            Finding::caution(
                "well::flow-and-liners",
                "no liner of the pumps makes the flow, with all of them at their highest speed",
            )
            .on(drilling, "flow", "this flow")
            .at(&widest.place, "the widest liner")
            .on(pump, "speed", "at most at this speed")
            .help("ask for less flow, or take a rig with wider liners or more pumps"),
        );
    }
}

/// What one pump makes at each stroke. [m³]
fn pump_output(pump: &At<'_>, liner_diameter: f64) -> Option<f64> {
    let (stroke, volumetric_efficiency) = (pump.number("stroke")?, pump.number("volumetric_efficiency")?);
    let output = if pump.text("kind")? == "duplex" {
        let rod_diameter = pump.number("rod")?;
        DoubleActingOutput { cylinders: 2.0, liner_diameter, rod_diameter, stroke, volumetric_efficiency }.value()
    } else {
        SingleActingOutput { cylinders: 3.0, liner_diameter, stroke, volumetric_efficiency }.value()
    };
    Some(output).filter(|output| *output > 0.0)
}

fn hook_load(reading: &At<'_>, section: &At<'_>, report: &mut Report) {
    let (Some(depth), Some(bottom)) = (reading.number("depth"), section.number("bottom")) else { return };
    if more(depth, bottom) {
        report.push(
            Finding::error("well::hook-load-depth", "a hook load was read below the section")
                .on(reading, "depth", "with the bit at this depth")
                .on(section, "bottom", "below the end of its section")
                .help("put it into the section in which it was read"),
        );
    }
}

fn slow_rate(rate: &At<'_>, section: &At<'_>, top: Option<f64>, report: &mut Report) {
    let Some(depth) = rate.number("depth") else { return };
    if section.number("bottom").is_some_and(|bottom| more(depth, bottom)) {
        report.push(
            Finding::error("well::slow-rate-depth", "a slow rate was read below the section")
                .on(rate, "depth", "read at this depth")
                .on(section, "bottom", "below the end of its section")
                .help("put it into the section in which it was read"),
        );
    } else if top.is_some_and(|top| more(top, depth)) {
        report.push(
            Finding::error("well::slow-rate-depth", "a slow rate was read above the section")
                .on(rate, "depth", "read at this depth")
                .on(section, "", "above the beginning of its section")
                .help("put it into the section in which it was read"),
        );
    }
}
