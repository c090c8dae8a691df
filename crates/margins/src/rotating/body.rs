//! The body of a part as it is: worn, where its class says so.

use rigwright_physics::Recorder;
use rigwright_physics::tubular::{CLASS_2_WALL, PREMIUM_WALL, WornDiameter};
use rigwright_well::{Part, PartKind, WearClass};

/// Depths closer than this are one: ends of pieces and nodes of a march are reckoned on different ways. [m]
pub(super) const SAME: f64 = 1e-6;

/// Outside diameter of the body with the wall that its class leaves. [m]
pub(crate) fn worn_diameter<R: Recorder>(part: &Part, rec: &mut R) -> f64 {
    let (outer_diameter, inner_diameter) = (part.outer_diameter, part.inner_diameter);
    match part.class {
        WearClass::New => outer_diameter,
        WearClass::Premium => rec.take(WornDiameter { outer_diameter, inner_diameter, wall_left: PREMIUM_WALL }),
        WearClass::Class2 => rec.take(WornDiameter { outer_diameter, inner_diameter, wall_left: CLASS_2_WALL }),
    }
}

/// Whether the part is pipe with a thin body, and not a thick bar that is made to stand in compression.
pub(crate) fn is_pipe(part: &Part) -> bool {
    matches!(part.kind, PartKind::DrillPipe | PartKind::HeavyWeight)
}
