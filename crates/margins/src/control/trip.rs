//! Filling the hole on a trip.

use crate::geometry::{self, Pipe};
use crate::trip_sheet::ALLOWED_FALL;
use crate::{Answer, Figure, Scene};
use rigwright_physics::circulating::passage::{AnnularCapacity, BoreCapacity};
use rigwright_physics::control::trips::{PressureDropDry, PressureDropWet, PulledVolume, StandsBeforeFill};
use rigwright_physics::tubular::{STEEL_DENSITY, SteelDisplacement};
use rigwright_physics::{Kind, Recorder};
use rigwright_well::PartKind;

pub(super) fn fill<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if fit.open_to_sea(scene.situation.section).is_some() {
        return Answer::DoesNotArise("no riser yet: the sea keeps the hole full");
    }
    let is_pipe = |pipe: &Pipe| matches!(pipe, Pipe::Part(part) if part.kind == PartKind::DrillPipe);
    let Some(piece) = scene.string().iter().rev().find(|piece| is_pipe(&piece.pipe)) else {
        return Answer::DoesNotArise("no drill pipe in the hole");
    };
    // The level falls at the top of the hole, in what stands there.
    let hole = geometry::hole(fit, scene.situation.section, scene.situation.hole_depth);
    let Some(upper) = hole.first() else { return Answer::DoesNotArise("no hole") };
    let (stand, mud_weight, gravity) = (fit.rig.mast.stand, scene.section().mud.weight, scene.gravity());
    rec.heading("a stand of drill pipe");
    let linear_mass = piece.pipe.linear_mass();
    let displacement = rec.take(SteelDisplacement { linear_mass, steel_density: STEEL_DENSITY });
    let capacity = rec.take(BoreCapacity { inner_diameter: piece.pipe.inner_diameter() });
    let (hole_diameter, pipe_diameter) = (upper.diameter, piece.pipe.outer_diameter());
    let annulus_capacity = rec.take(AnnularCapacity { hole_diameter, pipe_diameter });
    if annulus_capacity <= 0.0 {
        return Answer::DoesNotArise("the pipe fills the hole");
    }
    rec.heading("pulled dry");
    let dry = rec.take(PulledVolume { stands: 1.0, stand, displacement, capacity: 0.0 });
    let dry_drop = rec.take(PressureDropDry { volume: dry, mud_weight, annulus_capacity, capacity, gravity });
    let dry_stands = rec.take(StandsBeforeFill { allowed: ALLOWED_FALL, per_stand: dry_drop });
    rec.heading("pulled wet");
    let wet = rec.take(PulledVolume { stands: 1.0, stand, displacement, capacity });
    let wet_drop = rec.take(PressureDropWet { volume: wet, mud_weight, annulus_capacity, gravity });
    let wet_stands = rec.take(StandsBeforeFill { allowed: ALLOWED_FALL, per_stand: wet_drop });
    let figure = |name, value, kind| Figure { name, value, kind };
    Answer::Told(vec![
        figure("fill for a stand pulled dry", dry, Kind::Volume),
        figure("fill for a stand pulled wet", wet, Kind::Volume),
        figure("stands before 75 psi, dry, rounded down", dry_stands.floor(), Kind::Count),
        figure("stands before 75 psi, wet, rounded down", wet_stands.floor(), Kind::Count),
    ])
}
