//! Surge and swab per length of annulus: the same in every situation of a section with the same sizes and speed, and worked out once.

use crate::Scene;
use crate::fields::rheology::MudAt;
use crate::geometry::Annulus;
use rigwright_physics::circulating::losses::LossMethod;
use rigwright_physics::circulating::runs::{GradientPastJoints, LossBetweenTemperatures};
use rigwright_physics::circulating::surge::{PEAK_FACTOR, PeakSpeed};
use rigwright_physics::circulating::trip::{Clinging, End, Trip, TripStretch, trip_gradient};
use rigwright_physics::circulating::viscometer::MudRheology;
use rigwright_physics::{Formula, Off, Recorder};
use rustc_hash::FxHashMap;
use std::cell::RefCell;

/// More than a section ever has sizes and speeds: what comes after is reckoned each time.
const MOST: usize = 4096;

/// What a piece costs in a trip of the section: node of temperature, diameters of hole, body and joints, share of the joints, and
/// speed, to the last bit.
type Key = [u64; 6];

/// Losses that are known of one section's mud at its own weight.
pub struct Known {
    /// [kg/m³]
    density: f64,
    /// By a hash that costs little: the library's own costs as much as the loss that it looks up. [Pa/m]
    gradients: RefCell<FxHashMap<Key, f64>>,
}

impl Known {
    /// Of a section whose mud weighs this; nothing is known yet. [kg/m³]
    pub fn new(density: f64) -> Known {
        Known { density, gradients: RefCell::default() }
    }

    /// A loss that is worked out at the first call.
    fn found(&self, key: Key, work_out: impl FnOnce() -> f64) -> f64 {
        if let Some(known) = self.gradients.borrow().get(&key) {
            return *known;
        }
        let gradient = work_out();
        let mut gradients = self.gradients.borrow_mut();
        if gradients.len() < MOST {
            gradients.insert(key, gradient);
        }
        gradient
    }

    /// Surge or swab per length, as a magnitude. [Pa/m]
    pub(super) fn gradient(&self, mud: &MudAt, moved: &Moved, trip: &Trip) -> f64 {
        let at_node = |at: usize| self.at_node((mud.nodes[at], mud.curves[at]), moved, trip);
        let lower_gradient = at_node(0);
        if mud.share <= 0.0 {
            return lower_gradient;
        }
        LossBetweenTemperatures { lower_gradient, higher_gradient: at_node(1), temperature_share: mud.share }.value()
    }

    fn at_node(&self, (node, mud): (usize, &MudRheology), moved: &Moved, trip: &Trip) -> f64 {
        let work_out = || moved.gradient(mud, trip, &mut Off);
        if trip.density.to_bits() != self.density.to_bits() {
            return work_out();
        }
        let TripStretch { hole_diameter, pipe_diameter, .. } = moved.body;
        let (joint_diameter, joint_share) = moved.joints.map_or((0.0, 0.0), |(joints, share)| (joints.pipe_diameter, share));
        let sizes = [hole_diameter, pipe_diameter, joint_diameter, joint_share, trip.pipe_speed].map(f64::to_bits);
        let [hole, pipe, joint, share, speed] = sizes;
        self.found([node as u64, hole, pipe, joint, share, speed], work_out)
    }
}

/// A trip at a mean speed over a stand.
pub(super) fn peak<R: Recorder>(method: LossMethod, density: f64, pipe_speed: f64, rec: &mut R) -> Trip {
    at_speed(method, density, rec.take(PeakSpeed { pipe_speed, peak_factor: PEAK_FACTOR }))
}

/// A trip at a speed.
pub(super) fn at_speed(method: LossMethod, density: f64, pipe_speed: f64) -> Trip {
    Trip { pipe_speed, density, end: End::Closed, pumped: 0.0, method, clinging: Clinging::MovingWall }
}

/// Pipe that moves in a piece of annulus: its body, and its tool joints as stretches of their own with their share of the length.
/// What the mud loses where it enters and leaves a joint is left out, as with pumped mud.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Moved {
    pub(crate) body: TripStretch,
    pub(crate) joints: Option<(TripStretch, f64)>,
}

impl Moved {
    /// Surge or swab per length with a mud of one flow curve. [Pa/m]
    pub(crate) fn gradient<R: Recorder>(&self, mud: &MudRheology, trip: &Trip, rec: &mut R) -> f64 {
        let body_gradient = trip_gradient(mud, &self.body, trip, 0.0, rec);
        let Some((joints, joint_share)) = &self.joints else { return body_gradient };
        rec.note(|| "past the tool joints:".to_owned());
        let joint_gradient = trip_gradient(mud, joints, trip, 0.0, rec);
        rec.take(GradientPastJoints { body_gradient, joint_gradient, joint_share: *joint_share })
    }

    /// The same with the mud of a place. [Pa/m]
    pub(crate) fn gradient_in<R: Recorder>(&self, mud: &MudAt, trip: &Trip, rec: &mut R) -> f64 {
        mud.loss(|curve, rec| self.gradient(curve, trip, rec), rec)
    }

    /// Whether these are the same sizes.
    pub(crate) fn meets(&self, other: &Moved) -> bool {
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
        let sizes =
            |a: &TripStretch, b: &TripStretch| near(a.hole_diameter, b.hole_diameter) && near(a.pipe_diameter, b.pipe_diameter);
        let joints = match (&self.joints, &other.joints) {
            (Some((one, share)), Some((two, another))) => sizes(one, two) && near(*share, *another),
            (None, None) => true,
            _ => false,
        };
        joints && sizes(&self.body, &other.body)
    }

    /// Body and joints as stretches in a row over a length. [m]
    pub(crate) fn along(&self, length: f64) -> impl Iterator<Item = TripStretch> {
        let share = self.joints.map_or(0.0, |(_, share)| share);
        let joints = self.joints.map(|(joints, share)| TripStretch { length: length * share, ..joints });
        std::iter::once(TripStretch { length: length * (1.0 - share), ..self.body }).chain(joints)
    }
}

/// What moves in a piece of annulus, for a bit at a depth. [m]
pub(crate) fn moved(annulus: &Annulus, bit_depth: f64) -> Option<Moved> {
    let beside = annulus.pipe_diameter > 0.0 && annulus.bottom <= bit_depth + 1e-6;
    let hole_diameter = annulus.hole_diameter;
    let stretch = |pipe_diameter| TripStretch { length: annulus.length(), hole_diameter, pipe_diameter, inner_diameter: 0.0 };
    let joints = (annulus.joint_share > 0.0).then(|| (stretch(annulus.joint_diameter), annulus.joint_share));
    beside.then(|| Moved { body: stretch(annulus.pipe_diameter), joints })
}

/// A trip of the section at a mean speed over a stand, with a flow that is pumped meanwhile.
pub(crate) fn trip<R: Recorder>(scene: &Scene, (speed, pumped): (f64, f64), rec: &mut R) -> Trip {
    Trip { pumped, ..peak(scene.prepared_flow().method, scene.section().mud.weight, speed, rec) }
}
