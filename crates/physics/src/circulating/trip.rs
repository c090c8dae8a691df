//! Surge and swab along a string: closed or open at its end.
//!
//! The pressure at the bit from moving the pipe is the sum of the annular losses at the effective velocity. With an open end
//! part of the mud goes through the string; the split is the one at which both ways lose the same. Inside, friction
//! works on the velocity relative to the moving wall.

use super::bit::BitPressureLoss;
use super::losses::{LossMethod, Stream, pressure_gradient};
use super::moving_wall::MovingPipe;
use super::passage::{AnnularCapacity, AnnularVelocity, BoreCapacity, Passage};
use super::surge::*;
use super::viscometer::MudRheology;
use crate::{Formula, Kind, Off, Recorder, Root, numerics};

/// How the mud dragged along by the pipe is reckoned.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Clinging {
    /// The slot with a moving wall, exact for the flow curve in laminar flow. The methods that have no Herschel-Bulkley curve take the
    /// constant of a Newtonian fluid.
    #[default]
    MovingWall,
    /// Constant of a Newtonian fluid in laminar flow; an upper bound for muds.
    Newtonian,
    /// The line through Burkhardt's chart for laminar flow.
    LaminarLine,
    /// The line through Burkhardt's chart for turbulent flow.
    TurbulentLine,
    /// One constant for all annuli.
    Constant(f64),
}

impl Clinging {
    /// The constant for an annulus. [-]
    pub fn constant<R: Recorder>(self, hole_diameter: f64, pipe_diameter: f64, rec: &mut R) -> f64 {
        let diameter_ratio = diameter_ratio(hole_diameter, pipe_diameter);
        match self {
            Clinging::MovingWall | Clinging::Newtonian => rec.take(ClingingExact { diameter_ratio }),
            Clinging::LaminarLine => rec.take(ClingingLaminar { diameter_ratio }),
            Clinging::TurbulentLine => rec.take(ClingingTurbulent { diameter_ratio }),
            Clinging::Constant(constant) => constant,
        }
    }
}

/// A length of string in a hole of one diameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TripStretch {
    /// Measured length. [m]
    pub length: f64,
    /// Diameter of the hole or casing. [m]
    pub hole_diameter: f64,
    /// Outside diameter of the pipe. [m]
    pub pipe_diameter: f64,
    /// Inside diameter of the pipe. [m]
    pub inner_diameter: f64,
}

/// The lower end of the string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum End {
    /// No mud passes: float, casing shoe with a valve, plugged bit.
    Closed,
    /// Open through a bit or nozzle.
    Open {
        /// Flow area. [m²]
        flow_area: f64,
        /// Discharge coefficient. [-]
        discharge_coefficient: f64,
    },
}

/// Moving the string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trip {
    /// Speed of the pipe, peak if peaks are wanted; a magnitude. [m/s]
    pub pipe_speed: f64,
    /// Mud weight. [kg/m³]
    pub density: f64,
    /// Lower end of the string.
    pub end: End,
    /// Flow that is pumped down the string and comes up the annulus; nought with the pumps off. [m³/s]
    pub pumped: f64,
    /// Method for the losses.
    pub method: LossMethod,
    /// Method for the mud dragged along.
    pub clinging: Clinging,
}

/// Pressure from moving the string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TripPressure {
    /// Surge running in or swab pulling out, at the end of the string; a magnitude. [Pa]
    pub pressure: f64,
    /// Flow through the end of the string, relative to it. [m³/s]
    pub through_string: f64,
}

/// Annular loss of one stretch at the effective velocity, per length; negative where the mud is dragged faster than it flows. [Pa/m]
///
/// `through_string` is the flow inside the string relative to it: what does not have to pass the annulus.
pub fn trip_gradient<R: Recorder>(
    mud: &MudRheology,
    stretch: &TripStretch,
    trip: &Trip,
    through_string: f64,
    rec: &mut R,
) -> f64 {
    if let Some(pipe) = moving_pipe(stretch, trip, through_string, rec) {
        let stress = pipe.laminar_stress(&mud.curve, rec);
        return pipe.gradient((trip.method, mud, trip.density), stress, rec);
    }
    let TripStretch { hole_diameter, pipe_diameter, .. } = *stretch;
    let pipe_speed = trip.pipe_speed;
    let mud_velocity = mud_velocity(stretch, trip, through_string, rec);
    let clinging = trip.clinging.constant(hole_diameter, pipe_diameter, rec);
    let effective = rec.take(EffectiveVelocity { mud_velocity, clinging, pipe_speed });
    let passage = Passage::Annulus { hole_diameter, pipe_diameter };
    let stream = Stream { velocity: effective.abs(), density: trip.density };
    pressure_gradient(trip.method, mud, &passage, stream, rec).copysign(effective)
}

/// Mean velocity of the mud against the pipe's motion: what the pipe displaces, less what goes through the string, plus what is
/// pumped. [m/s]
fn mud_velocity<R: Recorder>(stretch: &TripStretch, trip: &Trip, through_string: f64, rec: &mut R) -> f64 {
    let TripStretch { hole_diameter, pipe_diameter, .. } = *stretch;
    let pipe_speed = trip.pipe_speed;
    let mut velocity = rec.take(ClosedPipeVelocity { pipe_speed, hole_diameter, pipe_diameter });
    if through_string > 0.0 {
        velocity -= rec.take(AnnularVelocity { flow_rate: through_string, hole_diameter, pipe_diameter });
    }
    if trip.pumped > 0.0 {
        velocity += rec.take(AnnularVelocity { flow_rate: trip.pumped, hole_diameter, pipe_diameter });
    }
    velocity
}

/// What moves in a stretch, where the laminar part is that of the slot with a moving wall; `None` for the methods that take a constant.
fn moving_pipe<R: Recorder>(stretch: &TripStretch, trip: &Trip, through_string: f64, rec: &mut R) -> Option<MovingPipe> {
    let exact = trip.clinging == Clinging::MovingWall && matches!(trip.method, LossMethod::Generalised | LossMethod::Exact);
    exact.then(|| MovingPipe {
        hole_diameter: stretch.hole_diameter,
        pipe_diameter: stretch.pipe_diameter,
        pipe_speed: trip.pipe_speed,
        mud_velocity: mud_velocity(stretch, trip, through_string, rec),
    })
}

const STRETCHES: &[(&str, Kind)] = &[
    ("length", Kind::Depth),
    ("hole diameter", Kind::Diameter),
    ("pipe diameter", Kind::Diameter),
    ("loss per length", Kind::PressureGradient),
    ("loss", Kind::Pressure),
];

/// Surge or swab at the end of a string whose stretches are given, by the speed of the pipe.
pub fn trip_pressure<R: Recorder>(mud: &MudRheology, stretches: &[TripStretch], trip: &Trip, rec: &mut R) -> TripPressure {
    let through_string = split(mud, stretches, trip, rec);
    let loss = |stretch: &TripStretch| trip_gradient(mud, stretch, trip, through_string, &mut Off) * stretch.length;
    if !R::ON {
        return TripPressure { pressure: stretches.iter().map(loss).sum(), through_string };
    }
    let worst = (0..stretches.len()).max_by(|a, b| loss(&stretches[*a]).total_cmp(&loss(&stretches[*b])));
    let mut pressure = 0.0;
    for (at, stretch) in stretches.iter().enumerate() {
        let in_full = at == 0 || at + 1 == stretches.len() || Some(at) == worst;
        pressure += if in_full { trip_gradient(mud, stretch, trip, through_string, rec) * stretch.length } else { loss(stretch) };
    }
    rec.table("pressure from moving the string", STRETCHES, || {
        let row = |stretch: &TripStretch| {
            let gradient = trip_gradient(mud, stretch, trip, through_string, &mut Off);
            vec![stretch.length, stretch.hole_diameter, stretch.pipe_diameter, gradient, gradient * stretch.length]
        };
        stretches.iter().map(row).collect()
    });
    rec.note(|| format!("losses by the method: {}", trip.method.name()));
    TripPressure { pressure, through_string }
}

/// Flow through the end of an open string, relative to it. [m³/s]
///
/// More flow through the string raises the loss inside and lowers that outside, so that one split balances them. Nothing
/// through the string gives no loss inside; with all that the pipe pushes and drags the annulus loses nothing.
fn split<R: Recorder>(mud: &MudRheology, stretches: &[TripStretch], trip: &Trip, rec: &mut R) -> f64 {
    let End::Open { flow_area, discharge_coefficient } = trip.end else { return 0.0 };
    if flow_area <= 0.0 || trip.pipe_speed <= 0.0 || !stretches.iter().any(|stretch| stretch.length > 0.0) {
        return 0.0;
    }
    let density = trip.density;
    let excess = |flow_rate: f64| {
        let bit = BitPressureLoss { density, flow_rate, flow_area, discharge_coefficient }.value();
        let along = |stretch: &TripStretch| {
            let inside = inside_gradient(mud, stretch, trip, flow_rate);
            (inside - trip_gradient(mud, stretch, trip, flow_rate, &mut Off)) * stretch.length
        };
        bit + stretches.iter().map(along).sum::<f64>()
    };
    let most = |stretch: &TripStretch| {
        let TripStretch { hole_diameter, pipe_diameter, .. } = *stretch;
        let clinging = trip.clinging.constant(hole_diameter, pipe_diameter, &mut Off);
        let annulus = AnnularCapacity { hole_diameter, pipe_diameter }.value();
        let pipe = BoreCapacity { inner_diameter: pipe_diameter }.value();
        trip.pipe_speed * (pipe + clinging * annulus)
    };
    let most = stretches.iter().map(most).fold(0.0, f64::max);
    let Some(flow_rate) = numerics::root(excess, 0.0, most) else { return 0.0 };
    rec.root(Root {
        equation: "loss through the string = loss past it",
        sign: "Q",
        meaning: "flow through the string, relative to it",
        kind: Kind::FlowRate,
        value: flow_rate,
        residual: excess(flow_rate),
        residual_kind: Kind::Pressure,
    });
    flow_rate
}

/// Loss inside the string per length, at a flow relative to it. [Pa/m]
fn inside_gradient(mud: &MudRheology, stretch: &TripStretch, trip: &Trip, flow_rate: f64) -> f64 {
    let passage = Passage::Bore { inner_diameter: stretch.inner_diameter };
    let stream = Stream { velocity: passage.velocity(flow_rate, &mut Off), density: trip.density };
    pressure_gradient(trip.method, mud, &passage, stream, &mut Off)
}
