//! Barite on site against what it takes to raise the weight of all mud by the kick intensity.

use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::Formula;
use rigwright_physics::Recorder;
use rigwright_physics::circulating::mixing::WeightUpMass;
use rigwright_physics::circulating::passage::{AnnularCapacity, BoreCapacity};
use rigwright_units::Kind;

/// Density of barite: 4.2 sg. [kg/m³] (common practice; API 13A allows 4.1)
pub(crate) const BARITE: f64 = 4200.0;

/// There is barite enough.
pub(super) fn weight_up<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let (intensity, barite, active) = (fit.well.kick.intensity, fit.rig.pits.barite, fit.rig.pits.active);
    let (Some(intensity), Some(barite), Some(active)) = (intensity, barite, active) else {
        let given = [
            (intensity.is_some(), "kick.intensity"),
            (barite.is_some(), "rig.pits.barite"),
            (active.is_some(), "rig.pits.active"),
        ];
        return Answer::Missing(given.into_iter().filter(|(given, _)| !given).map(|(_, entry)| entry).collect());
    };
    let (annulus, string) = (annular_volume(scene, rec), string_volume(scene, rec));
    let volume = annulus + string + active;
    rec.given("volume of the annulus", annulus, Kind::Volume);
    rec.given("volume of the string", string, Kind::Volume);
    rec.given("active pits", active, Kind::Volume);
    rec.note(|| "annulus, string and active pits are weighted up together".to_owned());
    let density = scene.section().mud.weight;
    let wanted_density = density + intensity;
    let demand = rec.take(WeightUpMass { volume, density, wanted_density, weighting_density: BARITE });
    let reserve = (fit.well.reserves.volume * barite).max(f64::MIN_POSITIVE);
    let limit = Limit { capacity: barite, reserve, name: "barite on site", source: "stock of the rig file" };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

/// Volume of the annulus from the bottom of the hole to surface. [m³]
pub(crate) fn annular_volume<R: Recorder>(scene: &Scene, rec: &mut R) -> f64 {
    let capacity = |annulus: &crate::geometry::Annulus| {
        let (hole_diameter, pipe_diameter) = (annulus.hole_diameter, annulus.pipe_diameter);
        AnnularCapacity { hole_diameter, pipe_diameter }
    };
    let volume = scene.annuli().iter().map(|annulus| capacity(annulus).value() * annulus.length()).sum();
    if R::ON {
        for annulus in scene.annuli().iter().rev() {
            rec.stretch(|| "annulus".to_owned(), annulus.top, annulus.bottom);
            let each = rec.take(capacity(annulus));
            rec.given("volume of the piece", each * annulus.length(), Kind::Volume);
        }
    }
    volume
}

/// Volume inside the string. [m³]
pub(crate) fn string_volume<R: Recorder>(scene: &Scene, rec: &mut R) -> f64 {
    let mut volume = 0.0;
    for piece in scene.string() {
        let length = piece.bottom - piece.top;
        rec.stretch(|| "string".to_owned(), piece.top, piece.bottom);
        let each = rec.take(BoreCapacity { inner_diameter: piece.pipe.inner_diameter() });
        rec.given("volume of the piece", each * length, Kind::Volume);
        volume += each * length;
    }
    volume
}
