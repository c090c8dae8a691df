//! Plans of a hole in one vertical plane: build and hold, build-hold-drop (S) and horizontal, from rates and a target.
//!
//! A plan is a chain of arcs and straight pieces. Its stations make a [`super::Path`] that passes exactly through the
//! target, because a path is arcs between stations too.
//!
//! *Sources*: Bourgoyne et al., Applied Drilling Engineering, SPE 1986, chapter 8, in the closed form with half-angles
//! that needs no table of cases; for plans in space Sawaryn & Thorogood, SPE 84246 (from memory).

use crate::{Formula, FormulaRecord, Recorder, formula};
use std::f64::consts::{FRAC_PI_2, PI};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    BendRadius::RECORD,
    BendVerticalDepth::RECORD,
    BendDeparture::RECORD,
    BendLength::RECORD,
    HoldLength::RECORD,
    HoldInclination::RECORD,
    ClosureDistance::RECORD,
    ClosureDirection::RECORD,
    VerticalSection::RECORD,
];

formula! {
    /// Radius of a bend from its build rate. In field units `18,000/(π B)` ft from deg/100 ft.
    pub struct BendRadius;
    slug "bend-radius";
    equation "R = 1/B";
    law Homogeneous;
    source "definition of curvature";
    given {
        /// build rate
        build_rate "B" Curvature must at_least(1e-9);
    }
    /// radius
    gives "R" Depth;
    value |f| 1.0 / f.build_rate
}

formula! {
    /// Vertical depth gained in a bend that builds.
    pub struct BendVerticalDepth;
    slug "bend-vertical-depth";
    equation "ΔV = R (sin I₂ - sin I₁)";
    law Homogeneous;
    source "geometry of the arc";
    given {
        /// radius of the bend
        bend_radius "R" Depth must NON_NEGATIVE;
        /// inclination at its upper end
        upper_inclination "I₁" Angle must between(0.0, PI);
        /// inclination at its lower end
        lower_inclination "I₂" Angle must between(0.0, PI);
    }
    /// vertical depth gained; turn the sign for a bend that drops
    gives "ΔV" Depth;
    value |f| f.bend_radius * (f.lower_inclination.sin() - f.upper_inclination.sin())
}

formula! {
    /// Horizontal way gained in a bend that builds.
    pub struct BendDeparture;
    slug "bend-departure";
    equation "ΔH = R (cos I₁ - cos I₂)";
    law Homogeneous;
    source "geometry of the arc";
    given {
        /// radius of the bend
        bend_radius "R" Depth must NON_NEGATIVE;
        /// inclination at its upper end
        upper_inclination "I₁" Angle must between(0.0, PI);
        /// inclination at its lower end
        lower_inclination "I₂" Angle must between(0.0, PI);
    }
    /// horizontal way gained; turn the sign for a bend that drops
    gives "ΔH" Depth;
    value |f| f.bend_radius * (f.upper_inclination.cos() - f.lower_inclination.cos())
}

formula! {
    /// Length of a bend along the hole.
    pub struct BendLength;
    slug "bend-length";
    equation "L = R |I₂ - I₁|";
    law Homogeneous;
    source "geometry of the arc";
    given {
        /// radius of the bend
        bend_radius "R" Depth must NON_NEGATIVE;
        /// inclination at its upper end
        upper_inclination "I₁" Angle must between(0.0, PI);
        /// inclination at its lower end
        lower_inclination "I₂" Angle must between(0.0, PI);
    }
    /// length along the hole
    gives "L" Depth;
    value |f| f.bend_radius * (f.lower_inclination - f.upper_inclination).abs()
}

formula! {
    /// Length of the straight piece of a plan; nought where the bend alone overshoots the target.
    ///
    /// For build and hold, V and H lead from the kick-off point to the target and R is the radius of the bend. For two
    /// bends they lead to the centre of the second one as seen from the target, and R is the difference of the radii
    /// (their sum when the second one drops).
    pub struct HoldLength;
    slug "hold-length";
    equation "L = √(V² + H² - 2 R H)";
    law Homogeneous;
    source "geometry: the tangent from a point to a circle";
    given {
        /// vertical depth still to go
        vertical_way "V" Depth must ANY;
        /// horizontal way still to go
        horizontal_way "H" Depth must ANY;
        /// radius, or difference of the radii
        net_radius "R" Depth must ANY;
    }
    /// length of the straight piece
    gives "L" Depth;
    value |f| hold_square(f.vertical_way, f.horizontal_way, f.net_radius).max(0.0).sqrt()
}

formula! {
    /// Inclination of the straight piece of a plan.
    ///
    /// The same as the tables of books that add and subtract two arcs, in one line for every case.
    pub struct HoldInclination;
    slug "hold-inclination";
    equation "I = 2 atan(H/(V + L))";
    law Homogeneous;
    source "geometry: half-angle form of H = R (1 - cos I) + L sin I, V = R sin I + L cos I";
    given {
        /// horizontal way still to go
        horizontal_way "H" Depth must ANY;
        /// vertical depth still to go
        vertical_way "V" Depth must ANY;
        /// length of the straight piece
        hold_length "L" Depth must NON_NEGATIVE;
    }
    /// inclination
    gives "I" Angle;
    value |f| 2.0 * f.horizontal_way.atan2(f.vertical_way + f.hold_length)
}

formula! {
    /// Horizontal distance from the surface location, straight across.
    pub struct ClosureDistance;
    slug "closure-distance";
    equation "C = √(N² + E²)";
    law Homogeneous;
    source "geometry";
    given {
        /// way to the north
        north "N" Depth must ANY;
        /// way to the east
        east "E" Depth must ANY;
    }
    /// closure distance
    gives "C" Depth;
    value |f| f.north.hypot(f.east)
}

formula! {
    /// Direction of the closure, clockwise from north.
    pub struct ClosureDirection;
    slug "closure-direction";
    equation "A = atan(E/N)";
    law Homogeneous;
    source "geometry; the quadrant by the signs of both";
    given {
        /// way to the north
        north "N" Depth must ANY;
        /// way to the east
        east "E" Depth must ANY;
    }
    /// direction, from 0 to 360 degrees
    gives "A" Angle;
    value |f| f.east.atan2(f.north).rem_euclid(2.0 * PI)
}

formula! {
    /// Horizontal way along the direction of the plan.
    pub struct VerticalSection;
    slug "vertical-section";
    equation "S = N cos A + E sin A";
    law Homogeneous;
    source "geometry";
    given {
        /// way to the north
        north "N" Depth must ANY;
        /// way to the east
        east "E" Depth must ANY;
        /// direction of the plan
        section_azimuth "A" Angle must ANY;
    }
    /// vertical section
    gives "S" Depth;
    value |f| f.north * f.section_azimuth.cos() + f.east * f.section_azimuth.sin()
}

/// Square of the length of the straight piece, negative out of reach.
fn hold_square(vertical: f64, horizontal: f64, radius: f64) -> f64 {
    vertical * vertical + horizontal * (horizontal - 2.0 * radius)
}

/// Where a plan starts and where it goes, in its vertical plane.
#[derive(Clone, Copy, Debug)]
pub struct Target {
    /// Depth of the kick-off point; the hole is vertical down to it. [m]
    pub kick_off: f64,
    /// Vertical depth of the target. [m]
    pub vertical_depth: f64,
    /// Horizontal way from the surface location to the target. [m]
    pub departure: f64,
    /// Direction, clockwise from north. [rad]
    pub azimuth: f64,
}

/// What a plan does after its first bend.
#[derive(Clone, Copy, Debug)]
pub struct SecondBend {
    /// Rate of the second bend, above nought. [rad/m]
    pub rate: f64,
    /// Inclination at its end, where the target is reached. [rad]
    pub inclination: f64,
    /// It drops (S) or builds on (horizontal).
    pub drops: bool,
}

/// Why there is no such plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PlanError {
    /// A value is not finite, a rate is not above nought, or the target does not lie below the kick-off point and aside.
    Input,
    /// The target lies inside the first bend: kick off higher, or build faster.
    OutOfReach,
    /// The straight piece would have to lie beyond the inclination at the end of the second bend, or beyond horizontal.
    Inclination {
        /// Inclination of the straight piece. [rad]
        hold: f64,
    },
}

impl std::fmt::Display for PlanError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            PlanError::Input => write!(f, "the target must lie below the kick-off point and aside, and rates above nought"),
            PlanError::OutOfReach => {
                write!(f, "the bend overshoots the target: kick off higher or build faster")
            }
            PlanError::Inclination { hold } => {
                write!(
                    f,
                    "the straight piece would stand at {:.1} degrees, which the second bend cannot follow",
                    hold.to_degrees()
                )
            }
        }
    }
}

impl std::error::Error for PlanError {}

/// A plan in one vertical plane.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Measured depth, inclination, azimuth where the plan changes; the last one is the target. [m, rad, rad]
    pub stations: Vec<(f64, f64, f64)>,
    /// Inclination of the straight piece. [rad]
    pub hold_inclination: f64,
    /// Length of the straight piece. [m]
    pub hold_length: f64,
}

impl Plan {
    /// Measured depth of the target. [m]
    pub fn measured_depth(&self) -> f64 {
        self.stations.last().map_or(0.0, |station| station.0)
    }

    /// Vertical to the kick-off point, a bend, straight to the target.
    ///
    /// # Errors
    /// When no such plan reaches the target.
    pub fn build_and_hold<R: Recorder>(target: &Target, build_rate: f64, rec: &mut R) -> Result<Plan, PlanError> {
        Plan::of(target, build_rate, None, rec)
    }

    /// Vertical to the kick-off point, a bend, straight, and a second bend that ends at the target: an S or a landing.
    ///
    /// # Errors
    /// When no such plan reaches the target.
    pub fn with_second_bend<R: Recorder>(
        target: &Target,
        build_rate: f64,
        second: &SecondBend,
        rec: &mut R,
    ) -> Result<Plan, PlanError> {
        Plan::of(target, build_rate, Some(second), rec)
    }

    fn of<R: Recorder>(target: &Target, build_rate: f64, second: Option<&SecondBend>, rec: &mut R) -> Result<Plan, PlanError> {
        let Target { kick_off, vertical_depth, departure, azimuth } = *target;
        let end = second.map_or(0.0, |second| second.inclination);
        let rate = second.map_or(build_rate, |second| second.rate);
        let known = [kick_off, vertical_depth, departure, azimuth, build_rate, rate, end].iter().all(|value| value.is_finite());
        let sane = kick_off >= 0.0 && vertical_depth > kick_off && departure > 0.0 && build_rate >= 1e-9 && rate >= 1e-9;
        if !(known && sane && (0.0..=PI).contains(&end)) {
            return Err(PlanError::Input);
        }
        let radius = rec.take(BendRadius { build_rate });
        // A second bend that drops turns about a centre on the other side: its radius counts negative.
        let signed = second.map_or(0.0, |second| 1.0 / second.rate * if second.drops { -1.0 } else { 1.0 });
        let vertical_way = vertical_depth - kick_off - signed * end.sin();
        let horizontal_way = departure - signed * (1.0 - end.cos());
        let net_radius = radius - signed;
        if second.is_some() {
            rec.note(|| {
                format!(
                    "the second bend taken off: {vertical_way:.2} m down and {horizontal_way:.2} m across remain, net radius {net_radius:.2} m"
                )
            });
        }
        if hold_square(vertical_way, horizontal_way, net_radius) < 0.0 {
            return Err(PlanError::OutOfReach);
        }
        let hold_length = rec.take(HoldLength { vertical_way, horizontal_way, net_radius });
        let hold = rec.take(HoldInclination { horizontal_way, vertical_way, hold_length });
        let follows = second.is_none_or(|second| if second.drops { hold >= end } else { hold <= end });
        if !(0.0..=FRAC_PI_2 + 1e-12).contains(&hold) || !follows {
            return Err(PlanError::Inclination { hold });
        }
        let mut stations = Vec::with_capacity(4);
        if kick_off > 0.0 {
            stations.push((0.0, 0.0, azimuth));
        }
        stations.push((kick_off, 0.0, azimuth));
        let mut depth = kick_off;
        let pieces = [
            (rec.take(BendLength { bend_radius: radius, upper_inclination: 0.0, lower_inclination: hold }), hold),
            (hold_length, hold),
            second.map_or((0.0, hold), |second| {
                let bend_radius = rec.take(BendRadius { build_rate: second.rate });
                (rec.take(BendLength { bend_radius, upper_inclination: hold, lower_inclination: end }), end)
            }),
        ];
        for (length, inclination) in pieces {
            // A piece that is not there makes no station: a path refuses two at one depth.
            if length > 1e-6 {
                depth += length;
                stations.push((depth, inclination, azimuth));
            }
        }
        Ok(Plan { stations, hold_inclination: hold, hold_length })
    }
}

#[cfg(test)]
mod tests;
