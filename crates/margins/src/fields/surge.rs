//! Surge and swab per length of annulus: the stress of the mud between hole and moving pipe, which is the same in every situation with
//! the same sizes and speed and is looked for once a section.

use crate::Scene;
use crate::fields::rheology::MudAt;
use crate::geometry::Annulus;
use rigwright_physics::circulating::losses::LossMethod;
use rigwright_physics::circulating::moving_wall::MovingPipe;
use rigwright_physics::circulating::rheology::HerschelBulkley;
use rigwright_physics::circulating::runs::{GradientPastJoints, LossBetweenTemperatures};
use rigwright_physics::circulating::surge::{PEAK_FACTOR, PeakSpeed};
use rigwright_physics::circulating::trip::{Clinging, End, Trip, TripStretch, moving_pipe, trip_gradient};
use rigwright_physics::circulating::viscometer::MudRheology;
use rigwright_physics::{Formula, Off, Recorder};
use std::sync::Mutex;

/// More than a section ever has sizes and speeds: what comes after is reckoned each time.
const MOST: usize = 512;

/// Stresses that are known of one section's mud.
#[derive(Default)]
pub struct Known {
    /// By node of temperature.
    stresses: Mutex<Vec<(usize, MovingPipe, f64)>>,
}

impl Known {
    /// Laminar stress of a moving pipe in mud of a node, looked for at the first call. [Pa]
    fn stress(&self, (node, curve): (usize, &HerschelBulkley), pipe: &MovingPipe) -> f64 {
        let same = |kept: &&(usize, MovingPipe, f64)| kept.0 == node && kept.1 == *pipe;
        let known = |stresses: &Vec<(usize, MovingPipe, f64)>| stresses.iter().find(same).map(|kept| kept.2);
        // A lock that broke only means that the stress is reckoned again.
        if let Some(stress) = self.stresses.lock().ok().and_then(|stresses| known(&stresses)) {
            return stress;
        }
        let stress = pipe.laminar_stress(curve, &mut Off);
        if let Ok(mut stresses) = self.stresses.lock()
            && stresses.len() < MOST
        {
            stresses.push((node, *pipe, stress));
        }
        stress
    }

    /// Surge or swab per length, as a magnitude. [Pa/m]
    pub(super) fn gradient(&self, mud: &MudAt, moved: &Moved, trip: &Trip) -> f64 {
        let at_node = |at: usize| {
            let along = |stretch: &TripStretch| self.of_stretch((mud.nodes[at], mud.curves[at]), stretch, trip);
            let body_gradient = along(&moved.body);
            moved.joints.as_ref().map_or(body_gradient, |(joints, joint_share)| {
                let joint_gradient = along(joints);
                GradientPastJoints { body_gradient, joint_gradient, joint_share: *joint_share }.value()
            })
        };
        let lower_gradient = at_node(0);
        if mud.share <= 0.0 {
            return lower_gradient;
        }
        LossBetweenTemperatures { lower_gradient, higher_gradient: at_node(1), temperature_share: mud.share }.value()
    }

    fn of_stretch(&self, (node, mud): (usize, &MudRheology), stretch: &TripStretch, trip: &Trip) -> f64 {
        match moving_pipe(stretch, trip, 0.0, &mut Off) {
            Some(pipe) => pipe.gradient((trip.method, mud, trip.density), self.stress((node, &mud.curve), &pipe), &mut Off),
            None => trip_gradient(mud, stretch, trip, 0.0, &mut Off),
        }
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
