//! Strength of the pipe body: tension, torsion, both together, burst, and the stresses they come from.

use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    TensionStrength::RECORD,
    TorsionStrength::RECORD,
    TorsionUnderTension::RECORD,
    TensionUnderTorsion::RECORD,
    BurstStrength::RECORD,
    HoopStress::RECORD,
    ShearStress::RECORD,
    TriaxialStress::RECORD,
    Twist::RECORD,
];

/// Yield in shear over yield in tension as API reckons it: the 0.096167 of RP 7G is 2 × 0.577/12. [-]
const SHEAR_YIELD: f64 = 0.577;

formula! {
    /// Pull at which the pipe body yields.
    pub struct TensionStrength;
    slug "tension-strength";
    equation "P = Y A";
    law Homogeneous;
    source "API RP 7G, 16th ed. 1998, appendix A; API Bulletin 5C3";
    given {
        /// yield strength
        yield_strength "Y" Stress must NON_NEGATIVE;
        /// area of steel, worn pipe with its worn diameter
        steel_area "A" Area must NON_NEGATIVE;
    }
    /// tension strength
    gives "P" Force;
    value |f| f.yield_strength * f.steel_area
}

formula! {
    /// Torque at which the pipe body yields, without tension.
    ///
    /// In field units `Q = 0.096167 J Y/D` with J = π/32 (D⁴ - d⁴), in ft-lbf from inches and psi.
    pub struct TorsionStrength;
    slug "torsion-strength";
    equation "Q = 0.577 Y π/16 (D⁴ - d⁴)/D";
    law Homogeneous;
    source "API RP 7G, 16th ed. 1998, appendix A";
    given {
        /// yield strength
        yield_strength "Y" Stress must NON_NEGATIVE;
        /// outside diameter, worn where the pipe is worn
        outer_diameter "D" Diameter must at_least(1e-3);
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// torsion strength
    gives "Q" Torque;
    value |f| {
        let polar_modulus = std::f64::consts::PI / 16.0 * (f.outer_diameter.powi(4) - f.inner_diameter.powi(4)) / f.outer_diameter;
        SHEAR_YIELD * f.yield_strength * polar_modulus
    }
}

formula! {
    /// Torque at which the pipe body yields while it is pulled; nought once the pull alone yields it.
    ///
    /// The same as `0.096167 (J/D) √(Y² - P²/A²)` in field units.
    pub struct TorsionUnderTension;
    slug "torsion-under-tension";
    equation "Q_T = Q √(1 - (P/P_y)²)";
    law Homogeneous;
    source "API RP 7G, 16th ed. 1998, appendix A (from memory)";
    given {
        /// torsion strength without tension
        torsion_strength "Q" Torque must NON_NEGATIVE;
        /// pull
        tension "P" Force must ANY;
        /// tension strength
        tension_strength "P_y" Force must at_least(1e-3);
    }
    /// torsion strength under tension
    gives "Q_T" Torque;
    value |f| f.torsion_strength * left_of_circle(f.tension / f.tension_strength)
}

formula! {
    /// Pull at which the pipe body yields while it is twisted; nought once the torque alone yields it.
    pub struct TensionUnderTorsion;
    slug "tension-under-torsion";
    equation "P_Q = P_y √(1 - (T/Q)²)";
    law Homogeneous;
    source "API RP 7G, 16th ed. 1998, appendix A (from memory), solved for the pull";
    given {
        /// tension strength without torque
        tension_strength "P_y" Force must NON_NEGATIVE;
        /// torque in the pipe
        torque "T" Torque must ANY;
        /// torsion strength without tension
        torsion_strength "Q" Torque must at_least(1e-3);
    }
    /// tension strength under torque
    gives "P_Q" Force;
    value |f| f.tension_strength * left_of_circle(f.torque / f.torsion_strength)
}

formula! {
    /// Inside pressure at which the pipe body yields.
    ///
    /// The outside diameter is the nominal one for every class of wear. A new pipe may be 12.5 % thin; RP 7G takes that
    /// off for new drill pipe only, since the class of worn pipe says what wall is left.
    pub struct BurstStrength;
    slug "burst-strength";
    equation "p = k 2 Y t/D";
    law Homogeneous;
    source "API Bulletin 5C3; API RP 7G, 16th ed. 1998, tables 3 and 5 (Barlow)";
    given {
        /// yield strength
        yield_strength "Y" Stress must NON_NEGATIVE;
        /// wall, worn where the pipe is worn
        wall "t" Diameter must NON_NEGATIVE;
        /// nominal outside diameter
        outer_diameter "D" Diameter must at_least(1e-3);
        /// share of the wall that is sure: 0.875 for new pipe, 1 for a class of wear
        wall_share "k" Fraction must FRACTION default 0.875;
    }
    /// burst strength
    gives "p" Pressure;
    value |f| f.wall_share * 2.0 * f.yield_strength * f.wall / f.outer_diameter
}

formula! {
    /// Stress around the bore of a tube under pressure from both sides.
    pub struct HoopStress;
    slug "hoop-stress";
    equation "σ_h = [p_i (d² + D²) - 2 p_o D²]/(D² - d²), D = d + 2t";
    law Homogeneous;
    source "Lamé, in any strength of materials";
    given {
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
        /// wall
        wall "t" Diameter must at_least(1e-6);
        /// pressure inside
        inside_pressure "p_i" Pressure must ANY;
        /// pressure outside
        outside_pressure "p_o" Pressure must ANY;
    }
    /// hoop stress at the bore, tension positive
    gives "σ_h" Stress;
    value |f| {
        let outer = f.inner_diameter + 2.0 * f.wall;
        let ring = 4.0 * f.wall * (f.inner_diameter + f.wall);
        let bore = f.inner_diameter * f.inner_diameter;
        (f.inside_pressure * (bore + outer * outer) - 2.0 * f.outside_pressure * outer * outer) / ring
    }
}

formula! {
    /// Shear stress in a twisted bar or tube.
    pub struct ShearStress;
    slug "shear-stress";
    equation "τ = T r/J";
    law Homogeneous;
    source "strength of materials";
    given {
        /// torque
        torque "T" Torque must ANY;
        /// radius where the stress is wanted
        radius "r" Diameter must NON_NEGATIVE;
        /// polar moment of area
        polar_moment "J" SecondMoment must at_least(1e-15);
    }
    /// shear stress
    gives "τ" Stress;
    value |f| f.torque * f.radius / f.polar_moment
}

formula! {
    /// Equivalent stress of axial, hoop, radial and shear stress together; steel yields where it reaches the yield strength.
    pub struct TriaxialStress;
    slug "triaxial-stress";
    equation "σ = √{½ [(σ_a - σ_h)² + (σ_h - σ_r)² + (σ_r - σ_a)²] + 3 τ²}";
    law Homogeneous;
    source "von Mises, in any strength of materials; API TR 5C3";
    given {
        /// axial stress with bending, tension positive
        axial_stress "σ_a" Stress must ANY;
        /// hoop stress
        hoop_stress "σ_h" Stress must ANY;
        /// radial stress: the pressure at that wall, negative
        radial_stress "σ_r" Stress must ANY;
        /// shear stress
        shear_stress "τ" Stress must ANY;
    }
    /// equivalent stress
    gives "σ" Stress;
    value |f| {
        let (a, h, r) = (f.axial_stress, f.hoop_stress, f.radial_stress);
        (0.5 * ((a - h).powi(2) + (h - r).powi(2) + (r - a).powi(2)) + 3.0 * f.shear_stress * f.shear_stress).sqrt()
    }
}

formula! {
    /// Angle by which a torque twists a length of pipe.
    pub struct Twist;
    slug "twist";
    equation "θ = T L/(G J)";
    law Homogeneous;
    source "strength of materials";
    given {
        /// torque
        torque "T" Torque must ANY;
        /// length
        length "L" Depth must NON_NEGATIVE;
        /// shear modulus of steel: 79 to 80 GPa
        shear_modulus "G" Stress must at_least(1.0) valid between(75e9, 85e9) default 79.3e9;
        /// polar moment of area
        polar_moment "J" SecondMoment must at_least(1e-15);
    }
    /// angle of twist
    gives "θ" Angle;
    value |f| f.torque * f.length / (f.shear_modulus * f.polar_moment)
}

/// √(1 - x²), nought outside the circle.
fn left_of_circle(share: f64) -> f64 {
    (1.0 - share * share).max(0.0).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::field::PSI;
    use crate::tubular::{PolarMoment, SteelArea};

    const Y: f64 = 135_000.0 * PSI;
    const PIPE: (f64, f64) = (0.127, 0.108_610_4);

    fn strengths() -> (f64, f64) {
        let (outer_diameter, inner_diameter) = PIPE;
        let steel_area = SteelArea { outer_diameter, inner_diameter }.value();
        let torsion = TorsionStrength { yield_strength: Y, outer_diameter, inner_diameter }.value();
        (TensionStrength { yield_strength: Y, steel_area }.value(), torsion)
    }

    /// Pull and torque stand on one ellipse, from either side.
    #[test]
    fn law_pull_and_torque_invert() {
        let (tension_strength, torsion_strength) = strengths();
        for share in [0.0, 0.2, 0.5, 0.9, 0.999] {
            let tension = share * tension_strength;
            let torque = TorsionUnderTension { torsion_strength, tension, tension_strength }.value();
            let back = TensionUnderTorsion { tension_strength, torque, torsion_strength }.value();
            assert!((back - tension).abs() < 1e-6 * tension_strength);
        }
        let over = TorsionUnderTension { torsion_strength, tension: 1.01 * tension_strength, tension_strength };
        assert!(over.value().abs() < 1e-9);
    }

    /// API takes shear yield as 0.577 of tensile yield; von Mises as 1/√3. The two agree within 0.1 %.
    #[test]
    fn law_torsion_agrees_with_von_mises() {
        let (_, torque) = strengths();
        let polar_moment = PolarMoment { outer_diameter: PIPE.0, inner_diameter: PIPE.1 }.value();
        let shear_stress = ShearStress { torque, radius: 0.5 * PIPE.0, polar_moment }.value();
        let triaxial = TriaxialStress { axial_stress: 0.0, hoop_stress: 0.0, radial_stress: 0.0, shear_stress }.value();
        assert!((triaxial / Y - 1.0).abs() < 1e-3, "{}", triaxial / Y);
    }

    /// A thin wall has the hoop stress p d/(2t); equal pressure on both sides is felt as that pressure.
    #[test]
    fn law_hoop_stress_limits() {
        let thin = HoopStress { inner_diameter: 1.0, wall: 1e-5, inside_pressure: 1e6, outside_pressure: 0.0 }.value();
        assert!((thin / (1e6 / 2e-5) - 1.0).abs() < 1e-4);
        let even = HoopStress { inner_diameter: 0.2, wall: 0.01, inside_pressure: 5e6, outside_pressure: 5e6 }.value();
        assert!((even + 5e6).abs() < 1e-3);
        let all_round = TriaxialStress { axial_stress: even, hoop_stress: even, radial_stress: even, shear_stress: 0.0 };
        assert!(all_round.value() < 1e-3, "pressure from all sides does not yield steel");
    }
}
