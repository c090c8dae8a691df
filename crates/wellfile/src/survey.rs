//! Survey files: CSV with a header that names each column and its unit, `md [ft], inclination [deg], azimuth [deg]`.

use rigwright_physics::Range;
use rigwright_units::Kind;

/// What a cell of a survey may be. [SI]
pub(crate) fn range(kind: Kind) -> Range {
    match kind {
        Kind::Depth => Range::between(0.0, 15_000.0),
        // Azimuths may run past north in either direction.
        _ => Range::between(-std::f64::consts::TAU, std::f64::consts::TAU),
    }
}
