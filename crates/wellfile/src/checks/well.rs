//! The well as a whole.

use super::more;
use crate::build::well_kind;
use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::At;
use rigwright_well::WellKind;

pub(super) fn check(well: &At<'_>, report: &mut Report) {
    water(well, report);
    alarm(well, report);
}

/// An alarm that goes later than the design kick is in promises more than the well was designed for.
fn alarm(well: &At<'_>, report: &mut Report) {
    let Some(kick) = well.table("kick") else { return };
    let (Some(gain), Some(volume)) = (kick.number("alarm_gain"), kick.number("volume")) else { return };
    if more(gain, volume) {
        report.push(
            Finding::caution("well::alarm-gain", "the alarm goes when more than the design kick has come in")
                .on(&kick, "alarm_gain", "gain at which it goes")
                .on(&kick, "volume", "the kick that the well is designed for")
                .help("set the alarm below `volume`, with room for what flows in until the well is shut in; or write the volume that can come in"),
        );
    }
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
