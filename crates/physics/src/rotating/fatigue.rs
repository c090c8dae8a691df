//! Fatigue of rotating pipe: what tension does to pipe between its joints in a bend, how many revolutions it bears, and
//! how much of its life a passage uses up.
//!
//! The damage sum is *indicative*: it rests on a curve for plain steel in air and knows nothing of slip cuts, pits,
//! corrosion, the pipe's past or mean stress. The permissible bends of API RP 7G are in `bending`.

use super::bending::{BendingNumber, BendingStress};
use crate::{Formula, FormulaRecord, Kind, Recorder, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    CurvatureAtJoint::RECORD,
    BodyContactDogleg::RECORD,
    StiffnessRatio::RECORD,
    RevolutionsInBend::RECORD,
    RevolutionsToFailure::RECORD,
    DamageOfPassage::RECORD,
];

/// Largest stiffness ratio at a crossover in soft rock (common practice). [-]
pub const STIFFNESS_RATIO_SOFT: f64 = 5.5;
/// Largest stiffness ratio at a crossover in hard rock or rough drilling (common practice). [-]
pub const STIFFNESS_RATIO_HARD: f64 = 3.5;

formula! {
    /// Curvature of pipe in tension at its tool joints, where it bends more than the hole because it is straighter between.
    ///
    /// True until the body touches the wall; after that the pipe bends less than this and never less than the hole.
    pub struct CurvatureAtJoint;
    slug "curvature-at-joint";
    equation "κ_p = κ KL/tanh(KL)";
    law Homogeneous;
    source "Lubinski, JPT February 1961, as in API RP 7G, 16th ed. 1998; re-derived from M″ = K² M";
    given {
        /// curvature of the hole
        curvature "κ" Curvature must NON_NEGATIVE;
        /// bending number
        bending_number "KL" Ratio must NON_NEGATIVE;
    }
    /// curvature of the pipe at the joint
    gives "κ_p" Curvature;
    value |f| f.curvature * if f.bending_number < 1e-6 { 1.0 } else { f.bending_number / f.bending_number.tanh() }
}

formula! {
    /// Dogleg severity from which tension pulls the body of the pipe onto the wall between its joints.
    ///
    /// Half-way between joints the pipe stands off the bend by `κ L²/2 [1 - tanh(KL/2)/(KL/2)]`; the joint holds it off
    /// by half the difference of the diameters. Weight of the pipe is left out.
    pub struct BodyContactDogleg;
    slug "body-contact-dogleg";
    equation "κ = (D_j - D)/(L² [1 - tanh(KL/2)/(KL/2)])";
    law Homogeneous;
    source "integral of Lubinski's equation M″ = K² M; compare Paslay & Cernocky, SPE 22547 (1991) (from memory)";
    given {
        /// outside diameter of the tool joint
        joint_diameter "D_j" Diameter must NON_NEGATIVE;
        /// outside diameter of the body
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// half the distance between tool joints
        half_joint "L" Depth must at_least(1e-3);
        /// bending number
        bending_number "KL" Ratio must at_least(1e-3);
    }
    /// dogleg severity
    gives "κ" Curvature;
    value |f| {
        let half = 0.5 * f.bending_number;
        // The bracket is the small difference of two numbers near one: by its series there.
        let square = half * half;
        let bracket = if half < 0.1 { square / 3.0 * (1.0 - 0.4 * square + 17.0 / 105.0 * square * square) } else { 1.0 - half.tanh() / half };
        (f.joint_diameter - f.outer_diameter) / (f.half_joint * f.half_joint * bracket)
    }
}

formula! {
    /// How much stiffer the lower part of a string is than the one above it: a sharp step breaks the connection there.
    ///
    /// Common practice keeps it below 5.5 in soft and 3.5 in hard rock, with another size of pipe in between.
    pub struct StiffnessRatio;
    slug "stiffness-ratio";
    equation "SR = Z_l/Z_u";
    law Homogeneous;
    source "common practice, as in ENI's drilling procedures (netwasgroup.us, Drill String Design)";
    given {
        /// section modulus of the lower part
        lower_modulus "Z_l" SectionModulus must NON_NEGATIVE;
        /// section modulus of the upper part
        upper_modulus "Z_u" SectionModulus must at_least(1e-12);
    }
    /// stiffness ratio
    gives "SR" Ratio;
    value |f| f.lower_modulus / f.upper_modulus
}

formula! {
    /// Revolutions of a joint while it is drilled through a bend.
    pub struct RevolutionsInBend;
    slug "revolutions-in-bend";
    equation "n = ω L/(2π R)";
    law Homogeneous;
    source "kinematics; Hansford & Lubinski, Petroleum Transactions AIME, SPE 1258 (1966) (from memory)";
    given {
        /// rotary speed
        rotary_speed "ω" RotarySpeed must NON_NEGATIVE;
        /// length of the bend along the hole
        length "L" Depth must NON_NEGATIVE;
        /// rate of penetration
        penetration_rate "R" DrillingRate must at_least(1e-9);
    }
    /// revolutions
    gives "n" Count;
    value |f| f.rotary_speed * f.length / (2.0 * PI * f.penetration_rate)
}

formula! {
    /// Revolutions to failure of plain rolled steel in air under a bending stress that turns over once a revolution.
    ///
    /// The stress range is twice the bending stress. Two straight lines that meet near ten million revolutions; the mean
    /// curve less two standard deviations. Slip cuts and corrosion take off far more than that: indicative only.
    pub struct RevolutionsToFailure;
    slug "revolutions-to-failure";
    equation "log N = 15.117 - 4 log 2σ_b up to 10⁷, 17.146 - 5 log 2σ_b beyond";
    law Empirical("MPa");
    source "DNV-RP-C203 (2012), table 2-1, curve B1 in air (from memory; the two lines meet at 106.97 MPa as printed there)";
    given {
        /// bending stress
        bending_stress "σ_b" Stress must at_least(1e3);
    }
    /// revolutions to failure
    gives "N" Count;
    value |f| {
        let range = (2.0 * f.bending_stress / 1e6).log10();
        let (steep, flat) = (10f64.powf(15.117 - 4.0 * range), 10f64.powf(17.146 - 5.0 * range));
        // The printed figures leave a step of 0.1 % where the lines meet: no stress may bear more than a smaller one.
        flat.max(steep.min(1e7))
    }
}

formula! {
    /// Share of the life that a passage uses up; shares add up to one at failure. Indicative only.
    pub struct DamageOfPassage;
    slug "damage-of-passage";
    equation "D = n/N";
    law Homogeneous;
    source "Palmgren & Miner; for drill pipe Hansford & Lubinski, SPE 1258 (1966)";
    given {
        /// revolutions
        revolutions "n" Count must NON_NEGATIVE;
        /// revolutions to failure at that stress
        revolutions_to_failure "N" Count must at_least(1e-3);
    }
    /// share of the life
    gives "D" Ratio;
    value |f| f.revolutions / f.revolutions_to_failure
}

/// Drill pipe between its joints.
#[derive(Clone, Copy, Debug)]
pub struct JointedPipe {
    /// Young's modulus. [Pa]
    pub youngs_modulus: f64,
    /// Outside diameter of the body. [m]
    pub outer_diameter: f64,
    /// Second moment of area of the body. [m⁴]
    pub second_moment: f64,
    /// Outside diameter of the tool joint. [m]
    pub joint_diameter: f64,
    /// Half the distance between tool joints. [m]
    pub half_joint: f64,
}

/// Bending stress of drill pipe in a bend, at its joints, under an effective tension; in compression it follows the
/// hole. [Pa]
pub fn stress_in_bend<R: Recorder>(pipe: &JointedPipe, tension: f64, curvature: f64, rec: &mut R) -> f64 {
    let JointedPipe { youngs_modulus, outer_diameter, second_moment, joint_diameter, half_joint } = *pipe;
    if tension <= 0.0 {
        rec.note(|| "the pipe is in compression and bends as the hole does".into());
        return rec.take(BendingStress { youngs_modulus, outer_diameter, curvature });
    }
    let bending_number = rec.take(BendingNumber { tension, half_joint, youngs_modulus, second_moment });
    if bending_number > 1e-3 {
        let contact = rec.take(BodyContactDogleg { joint_diameter, outer_diameter, half_joint, bending_number });
        if curvature > contact {
            rec.note(|| "the body touches the wall between its joints: the true stress lies below this one".into());
        }
    }
    let at_joint = rec.take(CurvatureAtJoint { curvature, bending_number });
    rec.take(BendingStress { youngs_modulus, outer_diameter, curvature: at_joint })
}

/// A joint drilled through a bend.
#[derive(Clone, Copy, Debug)]
pub struct Passage {
    /// Bending stress. [Pa]
    pub bending_stress: f64,
    /// Revolutions.
    pub revolutions: f64,
}

/// Share of the life of a joint that its passages use up together. Indicative only. [-]
pub fn damage<R: Recorder>(passages: &[Passage], rec: &mut R) -> f64 {
    let mut rows = Vec::new();
    let mut sum = 0.0;
    for passage in passages {
        let life = RevolutionsToFailure { bending_stress: passage.bending_stress.max(1e3) }.value();
        let share = DamageOfPassage { revolutions: passage.revolutions, revolutions_to_failure: life }.value();
        sum += share;
        if R::ON {
            rows.push(vec![passage.bending_stress, passage.revolutions, life, share]);
        }
    }
    let worst = passages.iter().max_by(|a, b| a.bending_stress.total_cmp(&b.bending_stress));
    if let Some(worst) = worst {
        rec.note(|| "the passage with the largest stress in full; indicative only: plain steel in air".into());
        let revolutions_to_failure = rec.take(RevolutionsToFailure { bending_stress: worst.bending_stress.max(1e3) });
        rec.take(DamageOfPassage { revolutions: worst.revolutions, revolutions_to_failure });
    }
    const COLUMNS: &[(&str, Kind)] = &[
        ("bending stress", Kind::Stress),
        ("revolutions", Kind::Count),
        ("revolutions to failure", Kind::Count),
        ("share of the life", Kind::Ratio),
    ];
    rec.table("damage by passage", COLUMNS, || rows);
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rotating::PermissibleDogleg;
    use crate::{Off, Working};

    /// The permissible bend of RP 7G is the bend in which the pipe at its joint just bears the permissible stress.
    #[test]
    fn law_permissible_dogleg_gives_back_its_stress() {
        let (youngs_modulus, outer_diameter, bending_stress) = (206.8e9, 0.1143, 1.0e8);
        for bending_number in [0.0, 0.3, 1.0, 4.3, 12.0] {
            let curvature = PermissibleDogleg { bending_stress, youngs_modulus, outer_diameter, bending_number }.value();
            let at_joint = CurvatureAtJoint { curvature, bending_number }.value();
            let back = BendingStress { youngs_modulus, outer_diameter, curvature: at_joint }.value();
            assert!((back / bending_stress - 1.0).abs() < 1e-9);
        }
    }

    /// The series of the stand-off joins the quotient; strong tension makes the pipe a chord, which stands off κ L²/2.
    #[test]
    fn law_stand_off_limits() {
        let at = |bending_number: f64| {
            BodyContactDogleg { joint_diameter: 0.168, outer_diameter: 0.127, half_joint: 4.6, bending_number }.value()
        };
        assert!((at(0.2 * (1.0 - 1e-9)) / at(0.2 * (1.0 + 1e-9)) - 1.0).abs() < 1e-7);
        let chord = (0.168 - 0.127) / (4.6 * 4.6);
        assert!((at(1e6) / chord - 1.0).abs() < 1e-5);
        assert!(at(1.0) > at(2.0) && at(2.0) > at(8.0), "tension pulls the body to the wall");
    }

    /// No stress bears more revolutions than a smaller one, and the lines meet where the standard says: 106.97 MPa.
    #[test]
    fn law_life_falls_with_stress() {
        let life = |megapascal: f64| RevolutionsToFailure { bending_stress: 0.5e6 * megapascal }.value();
        for step in 0..2000 {
            let stress = 1.0 + f64::from(step) * 0.25;
            assert!(life(stress + 0.25) <= life(stress));
        }
        assert!((life(106.97) / 1e7 - 1.0).abs() < 1e-3);
        assert!((life(200.0) / life(400.0) - 16.0).abs() < 1e-9 && (life(40.0) / life(80.0) - 32.0).abs() < 1e-9);
    }

    /// Damage adds up, in any order, and the working ends with the same figures.
    #[test]
    fn law_damage_adds_up() {
        let revolutions = |length| RevolutionsInBend { rotary_speed: 4.0 * PI, length, penetration_rate: 5e-3 }.value();
        let a = Passage { bending_stress: 9e7, revolutions: revolutions(30.0) };
        let b = Passage { bending_stress: 1.4e8, revolutions: revolutions(9.0) };
        let both = damage(&[a, b], &mut Off);
        assert!((both - damage(&[b], &mut Off) - damage(&[a], &mut Off)).abs() < 1e-15 && both > 0.0);
        let mut working = Working::default();
        assert!((damage(&[b, a], &mut working) - both).abs() < 1e-15);
        assert!(!working.lines.is_empty());
        assert!(damage(&[], &mut Off).abs() < 1e-15);
        assert!((a.revolutions - 12_000.0).abs() < 1e-6, "two revolutions a second over 30 m at 5 mm/s");
    }

    /// In compression the pipe follows the hole; in tension it bends more at the joint.
    #[test]
    fn law_tension_bends_pipe_at_its_joints() {
        let pipe = JointedPipe {
            youngs_modulus: 206.8e9,
            outer_diameter: 0.127,
            second_moment: 5.93e-6,
            joint_diameter: 0.168,
            half_joint: 4.6,
        };
        let hole = 0.5 * 206.8e9 * 0.127 * 2e-3;
        assert!((stress_in_bend(&pipe, -5e4, 2e-3, &mut Off) / hole - 1.0).abs() < 1e-12);
        assert!((stress_in_bend(&pipe, 1e-3, 2e-3, &mut Off) / hole - 1.0).abs() < 1e-6);
        assert!(stress_in_bend(&pipe, 6e5, 2e-3, &mut Off) > 1.5 * hole);
    }
}
