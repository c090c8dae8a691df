//! Tension, side force and torque along the string: the soft string on the real path.

use crate::Scene;
use rigwright_physics::Recorder;
use rigwright_well::Fit;

/// What the drag march reads in every situation of a fit.
pub struct Prepared {}

impl Prepared {
    /// Prepares a fit.
    pub fn new(_fit: &Fit) -> Prepared {
        Prepared {}
    }
}

/// The string's field in one situation.
pub struct Drag {
    /// Effective tension at surface: the string's own load, without block and top drive. [N]
    pub surface_tension: f64,
    /// Torque at surface. [N·m]
    pub surface_torque: f64,
}

impl Drag {
    /// Solves a situation.
    pub fn solve<R: Recorder>(_scene: &Scene, _rec: &mut R) -> Drag {
        Drag { surface_tension: 0.0, surface_torque: 0.0 }
    }
}
