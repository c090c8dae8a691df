//! Triaxial check of pipe: stresses of pressure, pull, bending and torque together, at the bore and at the outside, on
//! both sides of the bend. The worst of the four counts.
//!
//! True tension (not effective) makes the axial stress. Take the wall that is sure to be there where pressure governs,
//! the nominal one for the area (common practice); collapse is another matter and is not covered by this.

use crate::tubular::{ShearStress, TriaxialStress};
use crate::{Formula, FormulaRecord, Kind, Recorder, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    HoopStressAtRadius::RECORD,
    RadialStress::RECORD,
    AxialStress::RECORD,
    TriaxialDesignFactor::RECORD,
    CollapseOnEllipse::RECORD,
];

/// Design factor of the triaxial check (common practice). [-]
pub const TRIAXIAL_DESIGN_FACTOR: f64 = 1.25;

formula! {
    /// Stress around a tube under pressure from both sides, anywhere in its wall.
    pub struct HoopStressAtRadius;
    slug "hoop-stress-at-radius";
    equation "σ_h = [p_i a² - p_o b² + (p_i - p_o) a² b²/r²]/(b² - a²), a = d/2, b = a + t";
    law Homogeneous;
    source "Lamé, in any strength of materials; API TR 5C3";
    given {
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
        /// wall
        wall "t" Diameter must at_least(1e-6);
        /// radius where the stress is wanted
        radius "r" Diameter must at_least(1e-6);
        /// pressure inside
        inside_pressure "p_i" Pressure must ANY;
        /// pressure outside
        outside_pressure "p_o" Pressure must ANY;
    }
    /// hoop stress, tension positive
    gives "σ_h" Stress;
    value |f| {
        let (even, split) = lame(f.inner_diameter, f.wall, f.radius, f.inside_pressure, f.outside_pressure);
        even + split
    }
}

formula! {
    /// Stress across the wall of a tube under pressure from both sides: the pressure itself at either face, negative.
    pub struct RadialStress;
    slug "radial-stress";
    equation "σ_r = [p_i a² - p_o b² - (p_i - p_o) a² b²/r²]/(b² - a²), a = d/2, b = a + t";
    law Homogeneous;
    source "Lamé, in any strength of materials; API TR 5C3";
    given {
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
        /// wall
        wall "t" Diameter must at_least(1e-6);
        /// radius where the stress is wanted
        radius "r" Diameter must at_least(1e-6);
        /// pressure inside
        inside_pressure "p_i" Pressure must ANY;
        /// pressure outside
        outside_pressure "p_o" Pressure must ANY;
    }
    /// radial stress, tension positive
    gives "σ_r" Stress;
    value |f| {
        let (even, split) = lame(f.inner_diameter, f.wall, f.radius, f.inside_pressure, f.outside_pressure);
        even - split
    }
}

formula! {
    /// Stress along pipe from its true tension and from a bend.
    pub struct AxialStress;
    slug "axial-stress";
    equation "σ_a = F/A + E κ r";
    law Homogeneous;
    source "strength of materials";
    given {
        /// true tension
        true_tension "F" Force must ANY;
        /// area of steel
        steel_area "A" Area must at_least(1e-9);
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// curvature of the pipe: positive for the outside of the bend, negative for its inside
        curvature "κ" Curvature must ANY;
        /// radius where the stress is wanted
        radius "r" Diameter must NON_NEGATIVE;
    }
    /// axial stress, tension positive
    gives "σ_a" Stress;
    value |f| f.true_tension / f.steel_area + f.youngs_modulus * f.curvature * f.radius
}

formula! {
    /// Yield strength over the equivalent stress. 1.25 is common practice.
    pub struct TriaxialDesignFactor;
    slug "triaxial-design-factor";
    equation "n = Y/σ";
    law Homogeneous;
    source "API TR 5C3; the wanted factor is common practice";
    given {
        /// yield strength
        yield_strength "Y" Stress must NON_NEGATIVE;
        /// equivalent stress
        equivalent_stress "σ" Stress must at_least(1.0);
    }
    /// design factor
    gives "n" Ratio;
    value |f| f.yield_strength / f.equivalent_stress
}

formula! {
    /// Collapse strength under tension as textbooks have it: the rating shrunk like the yield strength.
    ///
    /// API 5C3 chooses the regime again for the equivalent grade instead; outside yield collapse this is lower, by 3 to
    /// 18 % for 9 5/8 in N-80. Shown beside it, not used as the limit.
    pub struct CollapseOnEllipse;
    slug "collapse-on-ellipse";
    equation "p = p₀ {√[1 - 0.75 (σ/Y)²] - 0.5 σ/Y}";
    law Homogeneous;
    source "ellipse of plasticity, as in Bourgoyne et al., Applied Drilling Engineering, SPE 1986, chapter 7";
    given {
        /// collapse strength without tension
        collapse_strength "p₀" Pressure must NON_NEGATIVE;
        /// axial stress, tension positive
        axial_stress "σ" Stress must NON_NEGATIVE;
        /// yield strength
        yield_strength "Y" Stress must at_least(1.0);
    }
    /// collapse strength under tension; nought once the tension alone yields the pipe
    gives "p" Pressure;
    value |f| {
        let share = f.axial_stress / f.yield_strength;
        if share >= 1.0 { 0.0 } else { f.collapse_strength * ((1.0 - 0.75 * share * share).sqrt() - 0.5 * share).max(0.0) }
    }
}

/// Lamé's two parts: the one that is even through the wall and the one that falls with the square of the radius.
fn lame(inner_diameter: f64, wall: f64, radius: f64, inside: f64, outside: f64) -> (f64, f64) {
    let a = 0.5 * inner_diameter;
    let b = a + wall;
    let ring = wall * (a + b);
    let shape = (a / radius * b) * (a / radius * b);
    ((inside * a * a - outside * b * b) / ring, (inside - outside) * shape / ring)
}

/// Pipe with all that loads it at one depth.
#[derive(Clone, Copy, Debug)]
pub struct PipeLoad {
    /// Inside diameter. [m]
    pub inner_diameter: f64,
    /// Wall. [m]
    pub wall: f64,
    /// Area of steel that carries the tension. [m²]
    pub steel_area: f64,
    /// Polar moment of area. [m⁴]
    pub polar_moment: f64,
    /// Young's modulus. [Pa]
    pub youngs_modulus: f64,
    /// Pressure inside. [Pa]
    pub inside_pressure: f64,
    /// Pressure outside. [Pa]
    pub outside_pressure: f64,
    /// True tension. [N]
    pub true_tension: f64,
    /// Curvature of the pipe, not below nought. [rad/m]
    pub curvature: f64,
    /// Torque. [N·m]
    pub torque: f64,
}

/// Where the equivalent stress is greatest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorstStress {
    /// Equivalent stress. [Pa]
    pub stress: f64,
    /// Radius: of the bore or of the outside. [m]
    pub radius: f64,
    /// Curvature with its sign: positive on the outside of the bend. [rad/m]
    pub curvature: f64,
}

impl PipeLoad {
    fn at<R: Recorder>(&self, radius: f64, curvature: f64, rec: &mut R) -> WorstStress {
        let PipeLoad { inner_diameter, wall, steel_area, polar_moment, youngs_modulus, .. } = *self;
        let PipeLoad { inside_pressure, outside_pressure, true_tension, torque, .. } = *self;
        let hoop_stress = rec.take(HoopStressAtRadius { inner_diameter, wall, radius, inside_pressure, outside_pressure });
        let radial_stress = rec.take(RadialStress { inner_diameter, wall, radius, inside_pressure, outside_pressure });
        let axial_stress = rec.take(AxialStress { true_tension, steel_area, youngs_modulus, curvature, radius });
        let shear_stress = rec.take(ShearStress { torque, radius, polar_moment });
        let stress = rec.take(TriaxialStress { axial_stress, hoop_stress, radial_stress, shear_stress });
        WorstStress { stress, radius, curvature }
    }

    /// The greatest equivalent stress, at the bore or at the outside, on either side of the bend.
    pub fn worst<R: Recorder>(&self, rec: &mut R) -> WorstStress {
        let (inner, outer) = (0.5 * self.inner_diameter, 0.5 * self.inner_diameter + self.wall);
        // Lamé divides by the radius: a bar without bore is looked at next to its axis.
        let at = |radius: f64| {
            let outside = self.at(radius, self.curvature, &mut crate::Off);
            // Both sides of straight pipe are alike.
            let inside = if self.curvature > 0.0 { self.at(radius, -self.curvature, &mut crate::Off) } else { outside };
            [outside, inside]
        };
        let ([a, b], [c, d]) = (at(inner.max(1e-6)), at(outer));
        let stresses = [a, b, c, d];
        let mut worst = stresses[0];
        for one in stresses {
            if one.stress > worst.stress {
                worst = one;
            }
        }
        rec.note(|| {
            let face = if worst.radius < outer { "bore" } else { "outside" };
            let side = if worst.curvature < 0.0 { "inside of the bend" } else { "outside of the bend" };
            format!("the worst of four places: {face}, {side}")
        });
        if R::ON {
            self.at(worst.radius, worst.curvature, rec);
        }
        const COLUMNS: &[(&str, Kind)] =
            &[("radius", Kind::Diameter), ("curvature", Kind::Curvature), ("equivalent stress", Kind::Stress)];
        rec.table("equivalent stress by place", COLUMNS, || {
            stresses.iter().map(|one| vec![one.radius, one.curvature, one.stress]).collect()
        });
        worst
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tubular::{HoopStress, PolarMoment, SteelArea};
    use crate::{Line, Off, Working};

    fn load() -> PipeLoad {
        let (outer_diameter, inner_diameter) = (0.127, 0.108_610_4);
        PipeLoad {
            inner_diameter,
            wall: 0.5 * (outer_diameter - inner_diameter),
            steel_area: SteelArea { outer_diameter, inner_diameter }.value(),
            polar_moment: PolarMoment { outer_diameter, inner_diameter }.value(),
            youngs_modulus: 206.8e9,
            inside_pressure: 0.0,
            outside_pressure: 0.0,
            true_tension: 0.0,
            curvature: 0.0,
            torque: 0.0,
        }
    }

    /// Radial stress is the pressure at either face; radial and hoop stress add up to the same all through the wall;
    /// at the bore the hoop stress is that of the thick-wall formula.
    #[test]
    fn law_lame_meets_its_faces() {
        let (inner_diameter, wall, inside_pressure, outside_pressure) = (0.2, 0.02, 7e7, 2e7);
        let radial = |radius| RadialStress { inner_diameter, wall, radius, inside_pressure, outside_pressure }.value();
        let hoop = |radius| HoopStressAtRadius { inner_diameter, wall, radius, inside_pressure, outside_pressure }.value();
        assert!((radial(0.1) + inside_pressure).abs() < 1.0 && (radial(0.12) + outside_pressure).abs() < 1.0);
        for radius in [0.1, 0.107, 0.12] {
            assert!((radial(radius) + hoop(radius) - radial(0.1) - hoop(0.1)).abs() < 1.0);
        }
        let bore = HoopStress { inner_diameter, wall, inside_pressure, outside_pressure }.value();
        assert!((hoop(0.1) / bore - 1.0).abs() < 1e-12);
    }

    /// The pressure force inside the wall balances: hoop stress over the wall carries the pressure on the bore.
    #[test]
    fn law_hoop_stress_carries_the_pressure() {
        let (inner_diameter, wall, inside_pressure, outside_pressure) = (0.2, 0.03, 7e7, 2e7);
        let steps = 20_000;
        let step = wall / f64::from(steps);
        let sum: f64 = (0..steps)
            .map(|at| {
                let radius = 0.1 + (f64::from(at) + 0.5) * step;
                HoopStressAtRadius { inner_diameter, wall, radius, inside_pressure, outside_pressure }.value() * step
            })
            .sum();
        let pressed = inside_pressure * 0.1 - outside_pressure * 0.13;
        assert!((sum / pressed - 1.0).abs() < 1e-6);
    }

    /// Each load by itself gives the stress that is known for it.
    #[test]
    fn law_single_loads() {
        let pulled = PipeLoad { true_tension: 1e6, ..load() };
        assert!((pulled.worst(&mut Off).stress * pulled.steel_area / 1e6 - 1.0).abs() < 1e-12);
        let bent = PipeLoad { curvature: 1e-3, ..load() }.worst(&mut Off);
        assert!((bent.stress / (206.8e9 * 0.0635 * 1e-3) - 1.0).abs() < 1e-12 && bent.radius > 0.06);
        let turned = PipeLoad { torque: 2e4, ..load() }.worst(&mut Off);
        assert!((turned.stress / (3f64.sqrt() * 2e4 * 0.0635 / load().polar_moment) - 1.0).abs() < 1e-12);
        let even = PipeLoad { inside_pressure: 5e7, outside_pressure: 5e7, true_tension: -5e7 * load().steel_area, ..load() };
        assert!(even.worst(&mut Off).stress < 1.0, "pressure from all sides does not yield steel");
    }

    /// With tension the outside of the bend is the worse one, in compression its inside; the working shows that place.
    #[test]
    fn law_the_worst_side_of_the_bend() {
        let pulled = PipeLoad { true_tension: 8e5, curvature: 2e-3, inside_pressure: 3e7, ..load() };
        assert!(pulled.worst(&mut Off).curvature > 0.0);
        let pushed = PipeLoad { true_tension: -3e5, curvature: 2e-3, torque: 1e4, ..load() };
        let mut working = Working::default();
        let worst = pushed.worst(&mut working);
        assert!(worst.curvature < 0.0);
        let shown = working.lines.iter().rev().find_map(|line| match line {
            Line::Step { record, value, .. } if record.slug == "triaxial-stress" => Some(*value),
            _ => None,
        });
        assert!((shown.unwrap() / worst.stress - 1.0).abs() < 1e-12);
        let n = TriaxialDesignFactor { yield_strength: 9.31e8, equivalent_stress: worst.stress }.value();
        assert!((n * worst.stress / 9.31e8 - 1.0).abs() < 1e-12);
    }
}
