//! Pressure along the circuit: string, bit, annulus, with the open hole's limits beside it.

use crate::Scene;
use rigwright_physics::Recorder;
use rigwright_well::Fit;

/// What the pressure field reads in every situation of a fit.
pub struct Prepared {}

impl Prepared {
    /// Prepares a fit.
    pub fn new(_fit: &Fit) -> Prepared {
        Prepared {}
    }
}

/// The circuit's field in one situation.
pub struct Flow {
    /// Pressure at the standpipe, gauge. [Pa]
    pub standpipe: f64,
}

impl Flow {
    /// Solves a situation.
    pub fn solve<R: Recorder>(_scene: &Scene, _rec: &mut R) -> Flow {
        Flow { standpipe: 0.0 }
    }
}
