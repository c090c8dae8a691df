//! Path of the hole: minimum curvature between survey stations.
//!
//! Inclination from the vertical, azimuth clockwise from north, both in radians; measured depth and
//! vertical depth grow downwards. [`Path`] works with unit vectors along the hole and needs no special
//! care near the vertical; the formulas below say the same thing in the angles that people read.

mod path;

pub mod methods;
pub mod plan;

use crate::{Formula, FormulaRecord, formula};
use std::f64::consts::PI;

pub use path::{Path, PathError, Station};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    DoglegAngle::RECORD,
    RatioFactor::RECORD,
    VerticalDepthStep::RECORD,
    NorthStep::RECORD,
    EastStep::RECORD,
    DoglegSeverity::RECORD,
];

/// Largest dogleg between two stations that a path may have; beyond it the arc says nothing. [rad]
pub const LARGEST_DOGLEG: f64 = 2.0;

formula! {
    /// Angle between the directions of the hole at two stations.
    ///
    /// The haversine form of `cos β = cos(I₂ - I₁) - sin I₁ sin I₂ (1 - cos(A₂ - A₁))`: the same angle,
    /// but exact for small doglegs too.
    pub struct DoglegAngle;
    slug "dogleg-angle";
    equation "β = 2 asin √(sin²((I₂ - I₁)/2) + sin I₁ sin I₂ sin²((A₂ - A₁)/2))";
    law Homogeneous;
    source "minimum curvature method, Taylor & Mason, SPE 3362 (1972) (from memory); spherical trigonometry";
    given {
        /// inclination at the upper station
        upper_inclination "I₁" Angle must between(0.0, PI);
        /// azimuth at the upper station
        upper_azimuth "A₁" Angle must ANY;
        /// inclination at the lower station
        lower_inclination "I₂" Angle must between(0.0, PI);
        /// azimuth at the lower station
        lower_azimuth "A₂" Angle must ANY;
    }
    /// dogleg angle
    gives "β" Angle;
    value |f| {
        let half_build = (0.5 * (f.lower_inclination - f.upper_inclination)).sin();
        let half_turn = (0.5 * (f.lower_azimuth - f.upper_azimuth)).sin();
        let square = half_build * half_build + f.upper_inclination.sin() * f.lower_inclination.sin() * half_turn * half_turn;
        2.0 * square.clamp(0.0, 1.0).sqrt().asin()
    }
}

formula! {
    /// What turns the mean of two directions into the chord of the arc between them.
    pub struct RatioFactor;
    slug "ratio-factor";
    equation "RF = tan(β/2) / (β/2)";
    law Homogeneous;
    source "minimum curvature method, Taylor & Mason, SPE 3362 (1972) (from memory)";
    given {
        /// dogleg angle
        dogleg "β" Angle must between(0.0, LARGEST_DOGLEG);
    }
    /// ratio factor
    gives "RF" Ratio;
    value |f| ratio_factor(f.dogleg)
}

formula! {
    /// Vertical depth gained between two stations, by minimum curvature.
    pub struct VerticalDepthStep;
    slug "vertical-depth-step";
    equation "ΔV = ΔMD/2 (cos I₁ + cos I₂) RF";
    law Homogeneous;
    source "minimum curvature method, Taylor & Mason, SPE 3362 (1972) (from memory)";
    given {
        /// measured depth between the stations
        course_length "ΔMD" Depth must NON_NEGATIVE;
        /// inclination at the upper station
        upper_inclination "I₁" Angle must between(0.0, PI);
        /// inclination at the lower station
        lower_inclination "I₂" Angle must between(0.0, PI);
        /// ratio factor
        ratio_factor "RF" Ratio must ONE_OR_MORE;
    }
    /// vertical depth gained
    gives "ΔV" Depth;
    value |f| 0.5 * f.course_length * (f.upper_inclination.cos() + f.lower_inclination.cos()) * f.ratio_factor
}

formula! {
    /// Way to the north between two stations, by minimum curvature.
    pub struct NorthStep;
    slug "north-step";
    equation "ΔN = ΔMD/2 (sin I₁ cos A₁ + sin I₂ cos A₂) RF";
    law Homogeneous;
    source "minimum curvature method, Taylor & Mason, SPE 3362 (1972) (from memory)";
    given {
        /// measured depth between the stations
        course_length "ΔMD" Depth must NON_NEGATIVE;
        /// inclination at the upper station
        upper_inclination "I₁" Angle must between(0.0, PI);
        /// azimuth at the upper station
        upper_azimuth "A₁" Angle must ANY;
        /// inclination at the lower station
        lower_inclination "I₂" Angle must between(0.0, PI);
        /// azimuth at the lower station
        lower_azimuth "A₂" Angle must ANY;
        /// ratio factor
        ratio_factor "RF" Ratio must ONE_OR_MORE;
    }
    /// way to the north
    gives "ΔN" Depth;
    value |f| {
        let sum = f.upper_inclination.sin() * f.upper_azimuth.cos() + f.lower_inclination.sin() * f.lower_azimuth.cos();
        0.5 * f.course_length * sum * f.ratio_factor
    }
}

formula! {
    /// Way to the east between two stations, by minimum curvature.
    pub struct EastStep;
    slug "east-step";
    equation "ΔE = ΔMD/2 (sin I₁ sin A₁ + sin I₂ sin A₂) RF";
    law Homogeneous;
    source "minimum curvature method, Taylor & Mason, SPE 3362 (1972) (from memory)";
    given {
        /// measured depth between the stations
        course_length "ΔMD" Depth must NON_NEGATIVE;
        /// inclination at the upper station
        upper_inclination "I₁" Angle must between(0.0, PI);
        /// azimuth at the upper station
        upper_azimuth "A₁" Angle must ANY;
        /// inclination at the lower station
        lower_inclination "I₂" Angle must between(0.0, PI);
        /// azimuth at the lower station
        lower_azimuth "A₂" Angle must ANY;
        /// ratio factor
        ratio_factor "RF" Ratio must ONE_OR_MORE;
    }
    /// way to the east
    gives "ΔE" Depth;
    value |f| {
        let sum = f.upper_inclination.sin() * f.upper_azimuth.sin() + f.lower_inclination.sin() * f.lower_azimuth.sin();
        0.5 * f.course_length * sum * f.ratio_factor
    }
}

formula! {
    /// Change of direction per length of hole.
    pub struct DoglegSeverity;
    slug "dogleg-severity";
    equation "DLS = β / ΔMD";
    law Homogeneous;
    source "definition";
    given {
        /// dogleg angle
        dogleg "β" Angle must NON_NEGATIVE;
        /// measured depth between the stations
        course_length "ΔMD" Depth must at_least(1e-3);
    }
    /// dogleg severity
    gives "DLS" Curvature;
    value |f| f.dogleg / f.course_length
}

/// tan(β/2)/(β/2), by its series near nought, where the quotient would lose digits.
pub(crate) fn ratio_factor(dogleg: f64) -> f64 {
    if dogleg.abs() < 0.02 {
        let square = dogleg * dogleg;
        1.0 + square / 12.0 + square * square / 120.0
    } else {
        (0.5 * dogleg).tan() / (0.5 * dogleg)
    }
}
