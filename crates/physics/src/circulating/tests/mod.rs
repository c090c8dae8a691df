//! Laws of the circulating system: limits, identities, monotony and continuity.

mod bounds;
mod cleaning;
mod losses;
mod rheology;
mod runs;
mod solids;
mod surge;

use super::losses::Stream;
use super::passage::Passage;
use super::rheology::Rheology;
use super::viscometer::MudRheology;
use crate::field::{INCH, POUND_PER_100_FEET_SQUARED, POUND_PER_GALLON};

/// A mud of 7 lbf/100 ft² yield stress, 0.6 lbf·sⁿ/100 ft² and 0.62.
const CURVE: Rheology = Rheology::HerschelBulkley {
    yield_stress: 7.0 * POUND_PER_100_FEET_SQUARED,
    consistency: 0.6 * POUND_PER_100_FEET_SQUARED,
    flow_index: 0.62,
};

fn mud() -> MudRheology {
    MudRheology::of(CURVE)
}

fn bore(inches: f64) -> Passage {
    Passage::Bore { inner_diameter: inches * INCH }
}

fn annulus(hole: f64, pipe: f64) -> Passage {
    Passage::Annulus { hole_diameter: hole * INCH, pipe_diameter: pipe * INCH }
}

fn stream(velocity: f64) -> Stream {
    Stream { velocity, density: 12.0 * POUND_PER_GALLON }
}

fn close(a: f64, b: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * a.abs().max(b.abs())
}
