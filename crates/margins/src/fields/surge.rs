//! Surge and swab per length of annulus: the stress of the mud between hole and moving pipe, which is the same in every situation with
//! the same sizes and speed and is looked for once a section.

use crate::Scene;
use crate::geometry::Annulus;
use rigwright_physics::circulating::losses::LossMethod;
use rigwright_physics::circulating::moving_wall::MovingPipe;
use rigwright_physics::circulating::rheology::HerschelBulkley;
use rigwright_physics::circulating::surge::{PEAK_FACTOR, PeakSpeed};
use rigwright_physics::circulating::trip::{Clinging, End, Trip, TripStretch, moving_pipe, trip_gradient};
use rigwright_physics::circulating::viscometer::MudRheology;
use rigwright_physics::{Off, Recorder};
use std::sync::Mutex;

/// More than a section ever has sizes and speeds: what comes after is reckoned each time.
const MOST: usize = 256;

/// Stresses that are known of one section's mud.
#[derive(Default)]
pub struct Known {
    stresses: Mutex<Vec<(MovingPipe, f64)>>,
}

impl Known {
    /// Laminar stress of a moving pipe, looked for at the first call. [Pa]
    fn stress(&self, curve: &HerschelBulkley, pipe: &MovingPipe) -> f64 {
        let known = |stresses: &Vec<(MovingPipe, f64)>| stresses.iter().find(|(kept, _)| kept == pipe).map(|(_, stress)| *stress);
        // A lock that broke only means that the stress is reckoned again.
        if let Some(stress) = self.stresses.lock().ok().and_then(|stresses| known(&stresses)) {
            return stress;
        }
        let stress = pipe.laminar_stress(curve, &mut Off);
        if let Ok(mut stresses) = self.stresses.lock()
            && stresses.len() < MOST
        {
            stresses.push((*pipe, stress));
        }
        stress
    }

    /// Surge or swab per length, as a magnitude. [Pa/m]
    pub(super) fn gradient(&self, mud: &MudRheology, stretch: &TripStretch, trip: &Trip) -> f64 {
        match moving_pipe(stretch, trip, 0.0, &mut Off) {
            Some(pipe) => pipe.gradient((trip.method, mud, trip.density), self.stress(&mud.curve, &pipe), &mut Off),
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

/// A piece of annulus with moving pipe in it, for a bit at a depth.
pub(crate) fn moved_stretch(annulus: &Annulus, bit_depth: f64) -> Option<TripStretch> {
    let beside = annulus.pipe_diameter > 0.0 && annulus.bottom <= bit_depth + 1e-6;
    beside.then_some(TripStretch {
        length: annulus.length(),
        hole_diameter: annulus.hole_diameter,
        pipe_diameter: annulus.pipe_diameter,
        inner_diameter: 0.0,
    })
}

/// Surge or swab per length, as a magnitude, of the section's mud between a hole and a pipe that moves at a mean speed, with a flow that
/// is pumped meanwhile. [Pa/m]
pub(crate) fn moved_gradient<R: Recorder>(
    scene: &Scene,
    (hole_diameter, pipe_diameter): (f64, f64),
    (speed, pumped): (f64, f64),
    rec: &mut R,
) -> f64 {
    let prepared = scene.prepared_flow();
    let Some(mud) = &prepared.mud else { return 0.0 };
    let trip = Trip { pumped, ..peak(prepared.method, scene.section().mud.weight, speed, rec) };
    let stretch = TripStretch { length: 1.0, hole_diameter, pipe_diameter, inner_diameter: 0.0 };
    trip_gradient(mud, &stretch, &trip, 0.0, rec)
}
