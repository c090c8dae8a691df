//! Older ways to work out a survey interval, for comparison only: average angle and radius of curvature.
//!
//! Books and old reports use them; over 100 ft they differ by inches, over 300 ft by feet. Paths are made by minimum
//! curvature. Azimuths are taken the short way round.

use crate::{Formula, FormulaRecord, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    AverageAngleNorth::RECORD,
    AverageAngleEast::RECORD,
    AverageAngleVertical::RECORD,
    RadiusOfCurvatureNorth::RECORD,
    RadiusOfCurvatureEast::RECORD,
    RadiusOfCurvatureVertical::RECORD,
];

formula! {
    /// Way to the north by the average angle.
    pub struct AverageAngleNorth;
    slug "average-angle-north";
    equation "ΔN = ΔMD sin((I₁ + I₂)/2) cos((A₁ + A₂)/2)";
    law Homogeneous;
    source "average angle method, as in Lapeyrouse, Formulas and Calculations, 2nd ed. 2002";
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
    }
    /// way to the north
    gives "ΔN" Depth;
    value |f| {
        let inclination = 0.5 * (f.upper_inclination + f.lower_inclination);
        f.course_length * inclination.sin() * middle(f.upper_azimuth, f.lower_azimuth).0.cos()
    }
}

formula! {
    /// Way to the east by the average angle.
    pub struct AverageAngleEast;
    slug "average-angle-east";
    equation "ΔE = ΔMD sin((I₁ + I₂)/2) sin((A₁ + A₂)/2)";
    law Homogeneous;
    source "average angle method, as in Lapeyrouse, Formulas and Calculations, 2nd ed. 2002";
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
    }
    /// way to the east
    gives "ΔE" Depth;
    value |f| {
        let inclination = 0.5 * (f.upper_inclination + f.lower_inclination);
        f.course_length * inclination.sin() * middle(f.upper_azimuth, f.lower_azimuth).0.sin()
    }
}

formula! {
    /// Vertical depth gained by the average angle.
    pub struct AverageAngleVertical;
    slug "average-angle-vertical";
    equation "ΔV = ΔMD cos((I₁ + I₂)/2)";
    law Homogeneous;
    source "average angle method, as in Lapeyrouse, Formulas and Calculations, 2nd ed. 2002";
    given {
        /// measured depth between the stations
        course_length "ΔMD" Depth must NON_NEGATIVE;
        /// inclination at the upper station
        upper_inclination "I₁" Angle must between(0.0, PI);
        /// inclination at the lower station
        lower_inclination "I₂" Angle must between(0.0, PI);
    }
    /// vertical depth gained
    gives "ΔV" Depth;
    value |f| f.course_length * (0.5 * (f.upper_inclination + f.lower_inclination)).cos()
}

formula! {
    /// Way to the north by the radius of curvature.
    ///
    /// The quotients of the method are written as half-angles, so that they hold where an angle does not change.
    pub struct RadiusOfCurvatureNorth;
    slug "radius-of-curvature-north";
    equation "ΔN = ΔMD (cos I₁ - cos I₂) (sin A₂ - sin A₁)/[(I₂ - I₁) (A₂ - A₁)]";
    law Homogeneous;
    source "radius of curvature method, as in Lapeyrouse, Formulas and Calculations, 2nd ed. 2002";
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
    }
    /// way to the north
    gives "ΔN" Depth;
    value |f| {
        let (azimuth, half_turn) = middle(f.upper_azimuth, f.lower_azimuth);
        let inclination = 0.5 * (f.upper_inclination + f.lower_inclination);
        let half_build = 0.5 * (f.lower_inclination - f.upper_inclination);
        f.course_length * inclination.sin() * chord(half_build) * azimuth.cos() * chord(half_turn)
    }
}

formula! {
    /// Way to the east by the radius of curvature.
    pub struct RadiusOfCurvatureEast;
    slug "radius-of-curvature-east";
    equation "ΔE = ΔMD (cos I₁ - cos I₂) (cos A₁ - cos A₂)/[(I₂ - I₁) (A₂ - A₁)]";
    law Homogeneous;
    source "radius of curvature method, as in Lapeyrouse, Formulas and Calculations, 2nd ed. 2002";
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
    }
    /// way to the east
    gives "ΔE" Depth;
    value |f| {
        let (azimuth, half_turn) = middle(f.upper_azimuth, f.lower_azimuth);
        let inclination = 0.5 * (f.upper_inclination + f.lower_inclination);
        let half_build = 0.5 * (f.lower_inclination - f.upper_inclination);
        f.course_length * inclination.sin() * chord(half_build) * azimuth.sin() * chord(half_turn)
    }
}

formula! {
    /// Vertical depth gained by the radius of curvature.
    pub struct RadiusOfCurvatureVertical;
    slug "radius-of-curvature-vertical";
    equation "ΔV = ΔMD (sin I₂ - sin I₁)/(I₂ - I₁)";
    law Homogeneous;
    source "radius of curvature method, as in Lapeyrouse, Formulas and Calculations, 2nd ed. 2002";
    given {
        /// measured depth between the stations
        course_length "ΔMD" Depth must NON_NEGATIVE;
        /// inclination at the upper station
        upper_inclination "I₁" Angle must between(0.0, PI);
        /// inclination at the lower station
        lower_inclination "I₂" Angle must between(0.0, PI);
    }
    /// vertical depth gained
    gives "ΔV" Depth;
    value |f| {
        let inclination = 0.5 * (f.upper_inclination + f.lower_inclination);
        f.course_length * inclination.cos() * chord(0.5 * (f.lower_inclination - f.upper_inclination))
    }
}

/// Azimuth half-way, and half the turn, the short way round.
fn middle(upper: f64, lower: f64) -> (f64, f64) {
    let half = 0.5 * ((lower - upper + PI).rem_euclid(2.0 * PI) - PI);
    (upper + half, half)
}

/// Chord of an arc over its length, for half the angle of the arc.
fn chord(half: f64) -> f64 {
    if half.abs() < 1e-4 { 1.0 - half * half / 6.0 } else { half.sin() / half }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trajectory::Path;

    /// In one vertical plane the radius of curvature is minimum curvature: both are the same arc.
    #[test]
    fn law_one_plane_is_one_arc() {
        let (course_length, upper_inclination, lower_inclination, azimuth) = (90.0, 0.3, 0.62, 6.2);
        let stations = [(0.0, upper_inclination, azimuth), (course_length, lower_inclination, azimuth)];
        let end = Path::from_stations(&stations).unwrap().at(course_length);
        let vertical = RadiusOfCurvatureVertical { course_length, upper_inclination, lower_inclination }.value();
        let (upper_azimuth, lower_azimuth) = (azimuth, azimuth + 2.0 * PI);
        let north =
            RadiusOfCurvatureNorth { course_length, upper_inclination, upper_azimuth, lower_inclination, lower_azimuth }.value();
        let east =
            RadiusOfCurvatureEast { course_length, upper_inclination, upper_azimuth, lower_inclination, lower_azimuth }.value();
        for (a, b) in [(vertical, end.vertical_depth), (north, end.north), (east, end.east)] {
            assert!((a - b).abs() < 1e-9, "{a} {b}");
        }
    }

    /// Over short intervals all methods agree, through north as well.
    #[test]
    fn law_short_intervals_agree() {
        let (course_length, upper_inclination, upper_azimuth) = (10.0, 0.5, 6.27);
        let (lower_inclination, lower_azimuth) = (0.505, 0.01);
        let stations = [(0.0, upper_inclination, upper_azimuth), (course_length, lower_inclination, lower_azimuth)];
        let end = Path::from_stations(&stations).unwrap().at(course_length);
        let by_average = [
            AverageAngleNorth { course_length, upper_inclination, upper_azimuth, lower_inclination, lower_azimuth }.value(),
            AverageAngleEast { course_length, upper_inclination, upper_azimuth, lower_inclination, lower_azimuth }.value(),
            AverageAngleVertical { course_length, upper_inclination, lower_inclination }.value(),
        ];
        let by_radius = [
            RadiusOfCurvatureNorth { course_length, upper_inclination, upper_azimuth, lower_inclination, lower_azimuth }.value(),
            RadiusOfCurvatureEast { course_length, upper_inclination, upper_azimuth, lower_inclination, lower_azimuth }.value(),
            RadiusOfCurvatureVertical { course_length, upper_inclination, lower_inclination }.value(),
        ];
        for (axis, exact) in [end.north, end.east, end.vertical_depth].into_iter().enumerate() {
            assert!((by_average[axis] - exact).abs() < 1e-3 && (by_radius[axis] - exact).abs() < 1e-3, "axis {axis}");
        }
    }
}
