//! Bending in doglegs, fatigue, and the speeds at which pipe swings.

use crate::field::{FOOT, INCH, PSI};
use crate::{Formula, FormulaRecord, Recorder, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    BendingStress::RECORD,
    BendingNumber::RECORD,
    PermissibleStressE::RECORD,
    PermissibleStressS::RECORD,
    PermissibleDogleg::RECORD,
    JointSideForce::RECORD,
    SwingSpeed::RECORD,
    LongitudinalSpeed::RECORD,
];

formula! {
    /// Bending stress of pipe that follows a bend.
    ///
    /// In field units 218 D c (psi from in and deg/100 ft). In tension, pipe between joints bends more than the hole.
    pub struct BendingStress;
    slug "bending-stress";
    equation "σ_b = E D κ/2";
    law Homogeneous;
    source "strength of materials";
    given {
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 30e6 * PSI;
        /// outside diameter
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// curvature of the pipe
        curvature "κ" Curvature must NON_NEGATIVE;
    }
    /// bending stress
    gives "σ_b" Stress;
    value |f| 0.5 * f.youngs_modulus * f.outer_diameter * f.curvature
}

formula! {
    /// How much tension straightens pipe between its joints, as a number.
    pub struct BendingNumber;
    slug "bending-number";
    equation "KL = L √(T/(E I))";
    law Homogeneous;
    source "Lubinski, JPT February 1961, as in API RP 7G, 16th ed. 1998";
    given {
        /// buoyed tension at the dogleg
        tension "T" Force must NON_NEGATIVE;
        /// half the distance between tool joints: 180 in for range 2
        half_joint "L" Depth must NON_NEGATIVE default 180.0 * INCH;
        /// Young's modulus
        youngs_modulus "E" Stress must at_least(1e3) valid between(190e9, 215e9) default 30e6 * PSI;
        /// second moment of area of the pipe
        second_moment "I" SecondMoment must at_least(1e-15);
    }
    /// bending number
    gives "KL" Ratio;
    value |f| f.half_joint * (f.tension / (f.youngs_modulus * f.second_moment)).sqrt()
}

formula! {
    /// Bending stress that grade E drill pipe bears without end, in air, under a tension. X and G take the same (from memory).
    pub struct PermissibleStressE;
    slug "permissible-bending-stress-e";
    equation "σ_b = 19500 - 10/67 σ_t - 0.6/670² (σ_t - 33500)²";
    law Empirical("psi");
    source "Lubinski, JPT February 1961, as in API RP 7G, 16th ed. 1998 (seen in Lyons, Standard Handbook vol. 1, 1996, p. 765)";
    given {
        /// tensile stress
        tensile_stress "σ_t" Stress must between(0.0, 67_000.0 * PSI);
    }
    /// permissible bending stress
    gives "σ_b" Stress;
    value |f| {
        let tensile = f.tensile_stress / PSI;
        (19_500.0 - 10.0 / 67.0 * tensile - 0.6 / (670.0 * 670.0) * (tensile - 33_500.0).powi(2)).max(0.0) * PSI
    }
}

formula! {
    /// Bending stress that S-135 drill pipe bears without end, in air, under a tension.
    pub struct PermissibleStressS;
    slug "permissible-bending-stress-s";
    equation "σ_b = 20000 (1 - σ_t/145000)";
    law Empirical("psi");
    source "API RP 7G, 16th ed. 1998, with the errata of May 2000; end of the range from memory";
    given {
        /// tensile stress
        tensile_stress "σ_t" Stress must between(0.0, 133_400.0 * PSI);
    }
    /// permissible bending stress
    gives "σ_b" Stress;
    value |f| 20_000.0 * (1.0 - f.tensile_stress / PSI / 145_000.0) * PSI
}

formula! {
    /// Sharpest bend that drill pipe may turn in without end, between its joints in tension.
    ///
    /// Take the same buoyed tension for the stress and for the bending number.
    pub struct PermissibleDogleg;
    slug "permissible-dogleg";
    equation "c = 2 σ_b/(E D) tanh(KL)/KL";
    law Homogeneous;
    source "Lubinski, JPT February 1961, as in API RP 7G, 16th ed. 1998";
    given {
        /// permissible bending stress
        bending_stress "σ_b" Stress must NON_NEGATIVE;
        /// Young's modulus
        youngs_modulus "E" Stress must at_least(1e3) valid between(190e9, 215e9) default 30e6 * PSI;
        /// outside diameter of the pipe
        outer_diameter "D" Diameter must at_least(1e-3);
        /// bending number
        bending_number "KL" Ratio must NON_NEGATIVE;
    }
    /// permissible dogleg severity
    gives "c" Curvature;
    value |f| {
        let straightening = if f.bending_number < 1e-6 { 1.0 } else { f.bending_number.tanh() / f.bending_number };
        2.0 * f.bending_stress / (f.youngs_modulus * f.outer_diameter) * straightening
    }
}

formula! {
    /// Force with which tension presses one tool joint on the wall of a bend; about 2,000 lbf is the limit in casing.
    pub struct JointSideForce;
    slug "joint-side-force";
    equation "N = 2 T sin(κ L/2)";
    law Homogeneous;
    source "statics; the limit is in API RP 7G (from memory)";
    given {
        /// effective tension
        tension "T" Force must NON_NEGATIVE;
        /// curvature of the hole
        curvature "κ" Curvature must NON_NEGATIVE;
        /// length of a joint
        joint "L" Depth must NON_NEGATIVE;
    }
    /// side force on the joint
    gives "N" Force;
    value |f| 2.0 * f.tension * (0.5 * f.curvature * f.joint).sin()
}

formula! {
    /// Rotary speed at which pipe between its joints swings. Advice only: good to 15 %, for free hanging pipe.
    pub struct SwingSpeed;
    slug "critical-rotary-speed";
    equation "n = 4760000/L² √(D² + d²)";
    law Empirical("in, rpm");
    source "API RP 7G, 16th ed. 1998";
    given {
        /// length of a joint
        joint "L" Depth must at_least(0.1) valid between(5.0, 15.0);
        /// outside diameter
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// critical rotary speed
    gives "n" RotarySpeed;
    value |f| {
        let rpm = 4_760_000.0 / (f.joint / INCH).powi(2) * f.outer_diameter.hypot(f.inner_diameter) / INCH;
        rpm * 2.0 * PI / 60.0
    }
}

formula! {
    /// Rotary speed at which a string swings along its length. Advice only.
    pub struct LongitudinalSpeed;
    slug "critical-rotary-speed-longitudinal";
    equation "n = 258000/L";
    law Empirical("ft, rpm");
    source "API RP 7G, 16th ed. 1998";
    given {
        /// length of the string
        length "L" Depth must at_least(0.1) valid between(300.0, 10_000.0);
    }
    /// critical rotary speed
    gives "n" RotarySpeed;
    value |f| 258_000.0 / (f.length / FOOT) * 2.0 * PI / 60.0
}

/// From this yield strength on drill pipe counts as S-135 and not as one of the grades from E to G. [Pa]
const S_135: f64 = 130_000.0 * PSI;
/// End of the line of grade E. [Pa]
const MOST_TENSILE_E: f64 = 67_000.0 * PSI;
/// End of the line of S-135 (from memory). [Pa]
const MOST_TENSILE_S: f64 = 133_400.0 * PSI;

/// Bending stress that drill pipe of a yield strength bears without end, in air; grades between E and S-135 take the
/// line of E (from memory). Nought beyond the end of its line, where the standard permits no bend. [Pa]
pub fn permissible_bending_stress<R: Recorder>(yield_strength: f64, tensile_stress: f64, rec: &mut R) -> f64 {
    let tensile_stress = tensile_stress.max(0.0);
    let most = if yield_strength >= S_135 { MOST_TENSILE_S } else { MOST_TENSILE_E };
    if tensile_stress > most {
        rec.note(|| "the tension is beyond the end of the standard's line: no bend is permissible".into());
        return 0.0;
    }
    if yield_strength >= S_135 {
        rec.take(PermissibleStressS { tensile_stress })
    } else {
        rec.take(PermissibleStressE { tensile_stress })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    /// The line is chosen by grade, ends where its source ends, and falls with tension.
    #[test]
    fn law_permissible_stress_by_grade() {
        let at = |yield_strength: f64, tensile: f64| {
            permissible_bending_stress(yield_strength * 1e3 * PSI, tensile * PSI, &mut Off) / PSI
        };
        assert!((at(135.0, 0.0) - 20_000.0).abs() < 1e-6 && (at(135.0, 72_500.0) - 10_000.0).abs() < 1e-6);
        assert!(at(75.0, 67_001.0).abs() < 1e-9 && at(105.0, 60_000.0) > 0.0 && at(135.0, 133_401.0).abs() < 1e-9);
        assert!((at(75.0, 33_500.0) - 14_500.0).abs() < 1e-6, "19500 - 10/67 x 33500 by hand");
        assert!(at(105.0, 40_000.0) < at(105.0, 20_000.0));
    }

    /// Without tension pipe bends like the hole; tension only makes the permissible bend gentler.
    #[test]
    fn law_tension_makes_bends_gentler() {
        let (youngs_modulus, outer_diameter, bending_stress) = (2e11, 0.127, 1e8);
        let bend =
            |bending_number: f64| PermissibleDogleg { bending_stress, youngs_modulus, outer_diameter, bending_number }.value();
        let stress = BendingStress { youngs_modulus, outer_diameter, curvature: bend(0.0) }.value();
        assert!((stress / bending_stress - 1.0).abs() < 1e-12);
        assert!((bend(1e-6 * (1.0 - 1e-9)) / bend(1e-6 * (1.0 + 1e-9)) - 1.0).abs() < 1e-9);
        assert!(bend(1.0) < bend(0.5) && bend(4.0) < bend(1.0));
        assert!((bend(50.0) * 50.0 / bend(0.0) - 1.0).abs() < 1e-12, "in strong tension 1/KL");
    }

    /// The side force of a joint is what the soft string spreads over the length of a joint, in a gentle bend.
    #[test]
    fn law_joint_side_force_is_tension_on_the_bend() {
        let force = JointSideForce { tension: 5e5, curvature: 1e-3, joint: 9.5 }.value();
        assert!((force / (5e5 * 1e-3 * 9.5) - 1.0).abs() < 1e-5);
    }
}
