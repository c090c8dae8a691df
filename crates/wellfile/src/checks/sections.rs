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
