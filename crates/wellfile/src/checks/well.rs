//! The well as a whole.

use crate::build::well_kind;
use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::At;
use rigwright_well::WellKind;

pub(super) fn check(well: &At<'_>, report: &mut Report) {
    water(well, report);
}

fn water(well: &At<'_>, report: &mut Report) {
    let Some(kind) = well_kind(well) else { return };
    let depth = well.number("water_depth");
    let is_land = kind == WellKind::Land;
    if is_land && depth.is_some_and(|depth| depth > 0.0) {
        report.push(
            Finding::error("well::water-depth", "a well on land has no water depth")
                .on(well, "water_depth", "this depth of water")
                .on(well, "kind", "but this kind of well")
                .help("leave `water_depth` out, or write the kind of well that stands in water"),
        );
    }
    if !is_land && depth == Some(0.0) {
        report.push(
            Finding::error("well::water-depth", "a well offshore stands in water")
                .on(well, "water_depth", "no water")
                .on(well, "kind", "but this kind of well")
                .help("write the depth of water below sea level"),
        );
    }
    if !is_land {
        super::need(well, &["water_depth"], "the well is offshore", report);
    }
}
