//! Where the mud flows: bore and annulus, their capacities, mean velocities and lags.
//!
//! An annulus is the room between a hole (or casing) and the pipe in it. One that is narrower than a
//! millionth of its hole, or whose pipe is wider than the hole, counts as that wide: nothing divides by nought, and
//! the speeds and losses that come out are absurdly large rather than small.

use crate::{Formula, FormulaRecord, Recorder, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    PipeVelocity::RECORD,
    AnnularVelocity::RECORD,
    BoreCapacity::RECORD,
    AnnularCapacity::RECORD,
    MetalDisplacement::RECORD,
    LagTime::RECORD,
    LagStrokes::RECORD,
    CuttingsLag::RECORD,
];

/// Width of the narrowest annulus as a share of its hole. [-]
const NARROWEST: f64 = 1e-6;

/// Hole diameter less pipe diameter. [m]
pub(super) fn gap(hole_diameter: f64, pipe_diameter: f64) -> f64 {
    (hole_diameter - pipe_diameter).max(NARROWEST * hole_diameter)
}

/// Difference of the squares of hole and pipe diameter. [m²]
pub(super) fn square_difference(hole_diameter: f64, pipe_diameter: f64) -> f64 {
    gap(hole_diameter, pipe_diameter) * (hole_diameter + pipe_diameter)
}

/// What the mud flows through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Passage {
    /// Inside of a pipe.
    Bore {
        /// Inside diameter. [m]
        inner_diameter: f64,
    },
    /// Between a pipe and the hole or casing around it.
    Annulus {
        /// Diameter of the hole, or inside diameter of the casing. [m]
        hole_diameter: f64,
        /// Outside diameter of the pipe. [m]
        pipe_diameter: f64,
    },
}

impl Passage {
    /// Width on which friction works: the diameter of a bore, hole less pipe diameter of an annulus. [m]
    pub fn width(&self) -> f64 {
        match *self {
            Passage::Bore { inner_diameter } => inner_diameter,
            Passage::Annulus { hole_diameter, pipe_diameter } => gap(hole_diameter, pipe_diameter),
        }
    }

    /// Cross-section open to flow. [m²]
    pub fn area(&self) -> f64 {
        match *self {
            Passage::Bore { inner_diameter } => BoreCapacity { inner_diameter }.value(),
            Passage::Annulus { hole_diameter, pipe_diameter } => AnnularCapacity { hole_diameter, pipe_diameter }.value(),
        }
    }

    /// Mean velocity of a flow. [m/s]
    #[inline]
    pub fn velocity<R: Recorder>(&self, flow_rate: f64, rec: &mut R) -> f64 {
        match *self {
            Passage::Bore { inner_diameter } => rec.take(PipeVelocity { flow_rate, inner_diameter }),
            Passage::Annulus { hole_diameter, pipe_diameter } => {
                rec.take(AnnularVelocity { flow_rate, hole_diameter, pipe_diameter })
            }
        }
    }
}

formula! {
    /// Mean velocity inside a pipe.
    pub struct PipeVelocity;
    slug "pipe-velocity";
    equation "v = Q / (π/4 d²)";
    law Homogeneous;
    source "continuity; in field units v = 0.408 Q/d², API RP 13D, 3rd ed. 1995";
    given {
        /// flow rate
        flow_rate "Q" FlowRate must ANY;
        /// inside diameter
        inner_diameter "d" Diameter must POSITIVE;
    }
    /// mean velocity
    gives "v" Speed;
    value |f| f.flow_rate / (PI / 4.0 * f.inner_diameter * f.inner_diameter)
}

formula! {
    /// Annular velocity: mean velocity between pipe and hole.
    pub struct AnnularVelocity;
    slug "annular-velocity";
    equation "v = Q / (π/4 (D² - d²))";
    law Homogeneous;
    source "continuity; in field units v = 24.5 Q/(D² - d²) ft/min, API RP 13D, 3rd ed. 1995";
    given {
        /// flow rate
        flow_rate "Q" FlowRate must ANY;
        /// diameter of the hole or inside diameter of the casing
        hole_diameter "D" Diameter must POSITIVE;
        /// outside diameter of the pipe
        pipe_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// annular velocity
    gives "v" Speed;
    value |f| f.flow_rate / (PI / 4.0 * square_difference(f.hole_diameter, f.pipe_diameter))
}

formula! {
    /// Capacity of a pipe or an open hole, per length; also what a closed-end pipe displaces, with its outside diameter.
    pub struct BoreCapacity;
    slug "bore-capacity";
    equation "c = π/4 d²";
    law Homogeneous;
    source "plane geometry; in field units d²/1029.4 bbl/ft";
    given {
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// volume per length
    gives "c" VolumePerLength;
    value |f| PI / 4.0 * f.inner_diameter * f.inner_diameter
}

formula! {
    /// Capacity of an annulus, per length.
    pub struct AnnularCapacity;
    slug "annular-capacity";
    equation "c = π/4 (D² - d²)";
    law Homogeneous;
    source "plane geometry; in field units (D² - d²)/1029.4 bbl/ft";
    given {
        /// diameter of the hole or inside diameter of the casing
        hole_diameter "D" Diameter must POSITIVE;
        /// outside diameter of the pipe
        pipe_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// volume per length
    gives "c" VolumePerLength;
    value |f| PI / 4.0 * square_difference(f.hole_diameter, f.pipe_diameter)
}

formula! {
    /// Volume that the metal of an open-ended pipe displaces, per length of plain body.
    ///
    /// Tool joints and upsets add 5 to 10 % on drill pipe (common practice): take the weight per length over the density of steel there.
    pub struct MetalDisplacement;
    slug "metal-displacement";
    equation "c = π/4 (d² - di²)";
    law Homogeneous;
    source "plane geometry; in field units (d² - di²)/1029.4 bbl/ft";
    given {
        /// outside diameter
        outer_diameter "d" Diameter must POSITIVE;
        /// inside diameter
        inner_diameter "di" Diameter must NON_NEGATIVE;
    }
    /// volume displaced per length
    gives "c" VolumePerLength;
    value |f| PI / 4.0 * (f.outer_diameter - f.inner_diameter) * (f.outer_diameter + f.inner_diameter)
}

formula! {
    /// Time in which a flow fills a volume: lag, surface to bit, bottoms up.
    pub struct LagTime;
    slug "lag-time";
    equation "t = V / Q";
    law Homogeneous;
    source "continuity";
    given {
        /// volume to be filled
        volume "V" Volume must NON_NEGATIVE;
        /// flow rate
        flow_rate "Q" FlowRate must POSITIVE;
    }
    /// time
    gives "t" Time;
    value |f| f.volume / f.flow_rate
}

formula! {
    /// Pump strokes that fill a volume.
    pub struct LagStrokes;
    slug "lag-strokes";
    equation "N = V / q";
    law Homogeneous;
    source "continuity";
    given {
        /// volume to be filled
        volume "V" Volume must NON_NEGATIVE;
        /// pump output per stroke
        pump_output "q" VolumePerStroke must POSITIVE;
    }
    /// strokes
    gives "N" Count;
    value |f| f.volume / f.pump_output
}

formula! {
    /// Time in which cuttings rise through a stretch of annulus.
    pub struct CuttingsLag;
    slug "cuttings-lag";
    equation "t = L / vn";
    law Homogeneous;
    source "kinematics";
    given {
        /// measured length of the stretch
        length "L" Depth must NON_NEGATIVE;
        /// annular velocity less slip velocity
        net_velocity "vn" Speed must POSITIVE;
    }
    /// time
    gives "t" Time;
    value |f| f.length / f.net_velocity
}
