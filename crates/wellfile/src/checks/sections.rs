//! Hole sections: their order and their back pressures.

use super::{more, no_twins};
use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::At;

pub(super) fn check(sections: &[At<'_>], report: &mut Report) {
    no_twins(sections, "sections", report);
    for (index, section) in sections.iter().enumerate() {
        order(section, &sections[..index], report);
        back_pressure(section, report);
        conductor(section, report);
    }
}

fn order(section: &At<'_>, above: &[At<'_>], report: &mut Report) {
    let Some(bottom) = section.number("bottom") else { return };
    if bottom <= 0.0 {
        let finding =
            Finding::error("well::sections-order", "a section ends where the hole begins").on(section, "bottom", "no hole");
        report.push(finding.help("write the measured depth where the section ends"));
    }
    let Some((before, depth)) = above.iter().rev().find_map(|other| Some((other, other.number("bottom")?))) else { return };
    if !more(bottom, depth) {
        report.push(
            Finding::error("well::sections-order", "a section does not end below the one before it")
                .on(section, "bottom", "this bottom")
                .on(before, "bottom", "is not below this one")
                .help("list sections in the order of drilling"),
        );
    }
}

fn back_pressure(section: &At<'_>, report: &mut Report) {
    let Some(pressure) = section.table("managed_pressure") else { return };
    anchor(section, &pressure, report);
    rising(&pressure, ["influx_operating", "influx_planned"], "the influx that stops drilling", report);
    for key in ["flowing", "still"] {
        rising(&pressure, [key, "pressure_limit"], "the back pressure of the plan", report);
    }
    let (Some(flowing), Some(still)) = (pressure.number("flowing"), pressure.number("still")) else { return };
    if more(flowing, still) {
        report.push(
            Finding::caution("well::back-pressure", "less back pressure is held with pumps off than while pumping")
                .on(&pressure, "still", "pumps off")
                .on(&pressure, "flowing", "pumping")
                .help("pumps off, back pressure usually makes up for the lost annular friction"),
        );
    }
}

fn anchor(section: &At<'_>, pressure: &At<'_>, report: &mut Report) {
    let (Some(anchor), Some(bottom)) = (pressure.number("anchor"), section.number("bottom")) else { return };
    if more(anchor, bottom) {
        report.push(
            Finding::error("well::anchor", "the anchor lies below the section")
                .on(pressure, "anchor", "this depth")
                .on(section, "bottom", "is below this one")
                .help("the anchor is a depth of the hole whose pressure is held through a connection"),
        );
    }
}

fn conductor(section: &At<'_>, report: &mut Report) {
    let Some(gas) = section.table("shallow_gas") else { return };
    let (Some(shoe), Some(bottom)) = (gas.number("conductor"), section.number("bottom")) else { return };
    if more(shoe, bottom) {
        report.push(
            Finding::error("well::conductor", "the conductor ends below the section that is drilled through it")
                .on(&gas, "conductor", "this shoe")
                .on(section, "bottom", "is below this end")
                .help("write the measured depth of the shoe of the pipe that the diverter stands on"),
        );
    }
}

/// Refuses a first limit above the second.
fn rising(pressure: &At<'_>, [low, high]: [&'static str; 2], what: &str, report: &mut Report) {
    let (Some(below), Some(above)) = (pressure.number(low), pressure.number(high)) else { return };
    if more(below, above) {
        report.push(
            Finding::error("well::managed-limits", format!("{what} lies above its limit"))
                .on(pressure, low, format!("`{low}`"))
                .on(pressure, high, format!("must not be above `{high}`")),
        );
    }
}
