//! Weight on bit against the buoyed weight of what may stand in compression.

use crate::geometry::Pipe;
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::hoisting::BuoyancyFactor;
use rigwright_physics::rotating::WeightAvailable;
use rigwright_physics::tubular::STEEL_DENSITY;
use rigwright_physics::{Kind, Recorder};
use rigwright_well::PartKind;

pub(super) fn weight_on_bit<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let mut assembly_mass = 0.0;
    let mut top = scene.situation.bit_depth;
    for piece in scene.string() {
        let Pipe::Part(part) = piece.pipe else { continue };
        if part.kind == PartKind::DrillPipe {
            break;
        }
        let mass = part.linear_mass * (piece.bottom - piece.top);
        rec.stretch(|| part.name.clone(), piece.top, piece.bottom);
        rec.given("mass of the part in air", mass, Kind::Mass);
        assembly_mass += mass;
        top = piece.top;
    }
    let buoyancy_factor = rec.take(BuoyancyFactor { mud_density: scene.section().mud.weight, steel_density: STEEL_DENSITY });
    let inclination = fit.well.path.inclination_at(0.5 * (top + scene.situation.bit_depth));
    let capacity =
        rec.take(WeightAvailable { assembly_mass, buoyancy_factor, inclination, factor: 1.0, gravity: scene.gravity() });
    let limit = Limit {
        capacity,
        reserve: (fit.well.reserves.strength * capacity).max(1.0),
        name: "buoyed weight of collars and heavy-weight pipe",
        source: "neutral point in effective tension (Lubinski 1950, from memory)",
    };
    Answer::Judged(Judged { demand: scene.section().drilling.weight_on_bit, limit, place: Place::Depth(top), zero: 0.0 })
}
