//! Buckling as a band over any lie of the hole, and what buckled pipe does: how hard the helix presses on the wall,
//! how sharply it bends, and how much weight still gets through to the bit before the string locks up.
//!
//! Compression is positive here, and it is the effective one. The single criteria of a straight or gently bent hole
//! are in `buckling`. A turn of the hole only presses the pipe harder on its wall: leaving it out is on the safe side.

use super::buckling::{CurvedBuckling, VerticalBuckling};
use crate::{Formula, FormulaRecord, Recorder, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    BucklingUnderSideForce::RECORD,
    CurvedHelicalBuckling::RECORD,
    VerticalBucklingOfOrder::RECORD,
    HelicalSideForce::RECORD,
    HelixPitch::RECORD,
    HelixBendingStress::RECORD,
    HelixDrag::RECORD,
    WeightThroughHelix::RECORD,
    LargestWeightThroughHelix::RECORD,
    WeightTransfer::RECORD,
];

/// Coefficient of `√(E I N/r)` where pipe begins to snake: Dawson & Paslay, JPT October 1984. [-]
pub const SNAKING: f64 = 2.0;
/// Where it begins to wind: 2√2, Chen, Lin & Cheatham, J. Energy Resources Technology 112 (1990) 88. [-]
pub const HELIX_ONSET: f64 = 2.0 * std::f64::consts::SQRT_2;
/// Where the helix is complete: 2 (2√2 - 1), Wu & Juvkam-Wold, SPE 25503 (1993). [-]
pub const HELIX_FULL: f64 = 2.0 * (HELIX_ONSET - 1.0);

/// Coefficient of `(E I w²)^(1/3)` in a vertical hole, second order: Lubinski, API 1950 (from memory). [-]
pub const VERTICAL_SECOND_ORDER: f64 = 3.75;
/// Snaking in a vertical hole: Wu & Juvkam-Wold (from memory). [-]
pub const VERTICAL_SNAKING: f64 = 2.55;
/// Helix in a vertical hole: Wu & Juvkam-Wold (from memory). [-]
pub const VERTICAL_HELIX: f64 = 5.55;

/// Share of more push on top that must still arrive at the bit; below it the string is locked up (common practice). [-]
pub const LOCK_UP_TRANSFER: f64 = 0.01;

formula! {
    /// Compression at which pipe that is pressed on the wall with a known side force buckles.
    ///
    /// True for any lie of the hole: take the side force of the drag march at the present compression; pipe whose
    /// compression is above this has buckled. In a straight hole the side force is w sin α.
    pub struct BucklingUnderSideForce;
    slug "buckling-under-side-force";
    equation "F = c √(E I N/r)";
    law Homogeneous;
    source "He & Kyllingstad, SPE 25370 (1993) (from memory); coefficients Dawson & Paslay, Chen et al., Wu & Juvkam-Wold";
    given {
        /// coefficient: 2 snaking, 2.828 onset of the helix, 3.657 full helix
        buckling_coefficient "c" Ratio must NON_NEGATIVE valid between(2.0, 3.66) default SNAKING;
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must NON_NEGATIVE;
        /// side force per length
        side_force "N" ForcePerLength must NON_NEGATIVE;
        /// radial clearance
        clearance "r" Diameter must at_least(1e-5);
    }
    /// compression
    gives "F" Force;
    value |f| f.buckling_coefficient * (f.youngs_modulus * f.second_moment * f.side_force / f.clearance).sqrt()
}

formula! {
    /// Compression at which pipe in a bend winds into a helix.
    ///
    /// The condition `F = c √(E I N/r)` solved for the compression, which is itself a part of the side force.
    pub struct CurvedHelicalBuckling;
    slug "curved-helical-buckling";
    equation "F = a + √(a² + c² E I w sin α/r), a = c² E I κ/(2 r)";
    law Homogeneous;
    source "He & Kyllingstad, SPE 25370 (1993) (from memory); coefficients Chen et al. and Wu & Juvkam-Wold";
    given {
        /// coefficient: 2 snaking, 2.828 onset of the helix, 3.657 full helix
        buckling_coefficient "c" Ratio must NON_NEGATIVE valid between(2.0, 3.66) default HELIX_ONSET;
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must NON_NEGATIVE;
        /// buoyed weight per length
        buoyed_weight "w" ForcePerLength must NON_NEGATIVE;
        /// inclination of the hole
        inclination "α" Angle must between(0.0, PI) valid between(0.05, 1.6);
        /// curvature, positive where the hole builds
        curvature "κ" Curvature must ANY;
        /// radial clearance
        clearance "r" Diameter must at_least(1e-5);
    }
    /// compression
    gives "F" Force;
    value |f| {
        let stiffness = f.buckling_coefficient * f.buckling_coefficient * f.youngs_modulus * f.second_moment / f.clearance;
        let bend = 0.5 * stiffness * f.curvature;
        let lying = stiffness * f.buoyed_weight * f.inclination.sin();
        let root = bend.hypot(lying.sqrt());
        // The sum of a positive root and a negative bend loses digits; the quotient does not.
        if bend >= 0.0 { bend + root } else { lying / (root - bend) }
    }
}

formula! {
    /// Compression at the lower end of pipe in a vertical hole at which it buckles in a higher order or winds.
    pub struct VerticalBucklingOfOrder;
    slug "vertical-buckling-of-order";
    equation "F = c (E I w²)^(1/3)";
    law Homogeneous;
    source "Lubinski, Drilling and Production Practice, API 1950; Wu & Juvkam-Wold (both from memory)";
    given {
        /// coefficient: 2.55 snaking and 5.55 helix after Wu & Juvkam-Wold, 3.75 Lubinski's second order
        order_coefficient "c" Ratio must NON_NEGATIVE valid between(1.6, 5.6) default VERTICAL_HELIX;
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must NON_NEGATIVE;
        /// buoyed weight per length along the hole
        buoyed_weight "w" ForcePerLength must NON_NEGATIVE;
    }
    /// compression
    gives "F" Force;
    value |f| f.order_coefficient * (f.youngs_modulus * f.second_moment * f.buoyed_weight * f.buoyed_weight).cbrt()
}

formula! {
    /// Side force per length that a helix adds: it grows with the square of the compression.
    pub struct HelicalSideForce;
    slug "helical-side-force";
    equation "N = r F²/(4 E I)";
    law Homogeneous;
    source "Mitchell, SPE Drilling Engineering, December 1986; Chen, Lin & Cheatham (1990) (from memory)";
    given {
        /// radial clearance
        clearance "r" Diameter must NON_NEGATIVE;
        /// effective compression
        compression "F" Force must NON_NEGATIVE;
        /// Young's modulus
        youngs_modulus "E" Stress must at_least(1e3) valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must at_least(1e-15);
    }
    /// side force per length
    gives "N" ForcePerLength;
    value |f| f.clearance * f.compression * f.compression / (4.0 * f.youngs_modulus * f.second_moment)
}

formula! {
    /// Length of hole in which a helix goes once round.
    pub struct HelixPitch;
    slug "helix-pitch";
    equation "p = π √(8 E I/F)";
    law Homogeneous;
    source "Lubinski, Althouse & Logan, JPT June 1962 (from memory)";
    given {
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must NON_NEGATIVE;
        /// effective compression
        compression "F" Force must at_least(1e-3);
    }
    /// pitch
    gives "p" Depth;
    value |f| PI * (8.0 * f.youngs_modulus * f.second_moment / f.compression).sqrt()
}

formula! {
    /// Bending stress of pipe wound into a helix: with rotation it turns over once a revolution and tires the pipe.
    pub struct HelixBendingStress;
    slug "helix-bending-stress";
    equation "σ_b = D r F/(4 I)";
    law Homogeneous;
    source "Lubinski, Althouse & Logan, JPT June 1962 (from memory)";
    given {
        /// outside diameter
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// radial clearance
        clearance "r" Diameter must NON_NEGATIVE;
        /// effective compression
        compression "F" Force must NON_NEGATIVE;
        /// second moment of area
        second_moment "I" SecondMoment must at_least(1e-15);
    }
    /// bending stress
    gives "σ_b" Stress;
    value |f| f.outer_diameter * f.clearance * f.compression / (4.0 * f.second_moment)
}

formula! {
    /// Compression that sliding pipe loses per length once it is wound into a helix.
    pub struct HelixDrag;
    slug "helix-drag";
    equation "D = b + μ r F²/(4 E I)";
    law Homogeneous;
    source "Wu & Juvkam-Wold, SPE Drilling & Completion (1993), frictional drag of helically buckled pipe (from memory)";
    given {
        /// drag of lying pipe per length less its weight along the hole: μ w sin α - w cos α
        lying_drag "b" ForcePerLength must ANY;
        /// friction factor
        friction_factor "μ" Ratio must between(0.0, 2.0) valid between(0.0, 0.6);
        /// radial clearance
        clearance "r" Diameter must NON_NEGATIVE;
        /// effective compression
        compression "F" Force must NON_NEGATIVE;
        /// Young's modulus
        youngs_modulus "E" Stress must at_least(1e3) valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must at_least(1e-15);
    }
    /// compression lost per length
    gives "D" ForcePerLength;
    value |f| {
        let wound = f.clearance * f.compression * f.compression / (4.0 * f.youngs_modulus * f.second_moment);
        f.lying_drag + f.friction_factor * wound
    }
}

formula! {
    /// Compression left at the far end of pipe that is wound into a helix over its whole length; nought when it is used up.
    ///
    /// For hole steeper than the pipe slides by itself: the drag of lying pipe must exceed its weight along the hole.
    pub struct WeightThroughHelix;
    slug "weight-through-helix";
    equation "F₂ = √(b/c) tan[atan(F₁ √(c/b)) - L √(b c)], c = μ r/(4 E I)";
    law Homogeneous;
    source "Wu & Juvkam-Wold, SPE Drilling & Completion (1993) (from memory); the integral of the drag of a helix";
    given {
        /// compression at the near end
        push "F₁" Force must NON_NEGATIVE;
        /// drag of lying pipe per length less its weight along the hole
        lying_drag "b" ForcePerLength must at_least(1e-3);
        /// friction factor
        friction_factor "μ" Ratio must between(1e-3, 2.0) valid between(0.05, 0.6);
        /// radial clearance
        clearance "r" Diameter must at_least(1e-5);
        /// Young's modulus
        youngs_modulus "E" Stress must at_least(1e3) valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must at_least(1e-15);
        /// length of the helix
        length "L" Depth must NON_NEGATIVE;
    }
    /// compression at the far end
    gives "F₂" Force;
    value |f| {
        let winding = f.friction_factor * f.clearance / (4.0 * f.youngs_modulus * f.second_moment);
        let root = (f.lying_drag * winding).sqrt();
        let angle = (f.push * (winding / f.lying_drag).sqrt()).atan() - root * f.length;
        if angle > 0.0 { (f.lying_drag / winding).sqrt() * angle.tan() } else { 0.0 }
    }
}

formula! {
    /// Compression that gets through a helix however hard one pushes: the string is locked up beyond it.
    pub struct LargestWeightThroughHelix;
    slug "largest-weight-through-helix";
    equation "F = √(b/c)/tan(L √(b c)), c = μ r/(4 E I)";
    law Homogeneous;
    source "the limit of the weight through a helix for an endless push";
    given {
        /// drag of lying pipe per length less its weight along the hole
        lying_drag "b" ForcePerLength must at_least(1e-3);
        /// friction factor
        friction_factor "μ" Ratio must between(1e-3, 2.0) valid between(0.05, 0.6);
        /// radial clearance
        clearance "r" Diameter must at_least(1e-5);
        /// Young's modulus
        youngs_modulus "E" Stress must at_least(1e3) valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must at_least(1e-15);
        /// length of the helix
        length "L" Depth must at_least(1e-3);
    }
    /// largest compression at the far end; nought when none gets through
    gives "F" Force;
    value |f| {
        let winding = f.friction_factor * f.clearance / (4.0 * f.youngs_modulus * f.second_moment);
        let angle = (f.lying_drag * winding).sqrt() * f.length;
        if angle < 0.5 * PI { (f.lying_drag / winding).sqrt() / angle.tan() } else { 0.0 }
    }
}

formula! {
    /// Share of a little more push that arrives at the far end.
    ///
    /// Where compression is lost at a rate that hangs on the compression only, the share is the rate at the far end
    /// over that at the near end. Below 1 % the string counts as locked up (common practice).
    pub struct WeightTransfer;
    slug "weight-transfer";
    equation "t = D₂/D₁";
    law Homogeneous;
    source "derivative of the integral of the drag";
    given {
        /// compression lost per length at the far end
        far_drag "D₂" ForcePerLength must NON_NEGATIVE;
        /// compression lost per length at the near end
        near_drag "D₁" ForcePerLength must at_least(1e-3);
    }
    /// share that arrives
    gives "t" Ratio;
    value |f| f.far_drag / f.near_drag
}

/// Pipe in compression at one place of the hole.
#[derive(Clone, Copy, Debug)]
pub struct CompressedPipe {
    /// Young's modulus. [Pa]
    pub youngs_modulus: f64,
    /// Second moment of area. [m⁴]
    pub second_moment: f64,
    /// Buoyed weight per length. [N/m]
    pub buoyed_weight: f64,
    /// Radial clearance to the hole, of the body or of the joint. [m]
    pub clearance: f64,
    /// Inclination of the hole. [rad]
    pub inclination: f64,
    /// Curvature in the vertical plane, positive where the hole builds. [rad/m]
    pub build: f64,
}

/// Compressions that buckle pipe. [N]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BucklingBand {
    /// It begins to snake: the limit while rotating (common practice).
    pub snaking: f64,
    /// It begins to wind: lower end of the limit while sliding.
    pub helix_onset: f64,
    /// The helix is complete: upper end of the limit while sliding.
    pub helix_full: f64,
}

/// The band at one place of the hole: the greater of the criterion for pipe that lies on a wall and the one for pipe
/// that hangs free. The first neglects weight along the hole, the second the wall: each is a lower bound.
pub fn buckling_band<R: Recorder>(pipe: &CompressedPipe, rec: &mut R) -> BucklingBand {
    let CompressedPipe { youngs_modulus, second_moment, buoyed_weight, clearance, inclination, build: curvature } = *pipe;
    let lying = CurvedBuckling { youngs_modulus, second_moment, buoyed_weight, inclination, curvature, clearance };
    let wound = |buckling_coefficient: f64| CurvedHelicalBuckling {
        buckling_coefficient,
        youngs_modulus,
        second_moment,
        buoyed_weight,
        inclination,
        curvature,
        clearance,
    };
    let along = buoyed_weight * inclination.cos().max(0.0);
    let (on_wall, onset, full) = (rec.take(lying), rec.take(wound(HELIX_ONSET)), rec.take(wound(HELIX_FULL)));
    rec.note(|| "hanging free, with the weight along the hole; the greater of each pair counts".into());
    let free = rec.take(VerticalBuckling { youngs_modulus, second_moment, buoyed_weight: along });
    let order_coefficient = VERTICAL_HELIX;
    let coil = rec.take(VerticalBucklingOfOrder { order_coefficient, youngs_modulus, second_moment, buoyed_weight: along });
    BucklingBand { snaking: on_wall.max(free), helix_onset: onset.max(coil), helix_full: full.max(coil) }
}

/// Pipe pushed along a straight hole in which it does not slide by itself.
#[derive(Clone, Copy, Debug)]
pub struct PushedPipe {
    /// Young's modulus. [Pa]
    pub youngs_modulus: f64,
    /// Second moment of area. [m⁴]
    pub second_moment: f64,
    /// Radial clearance. [m]
    pub clearance: f64,
    /// Friction factor. [-]
    pub friction_factor: f64,
    /// Drag of lying pipe per length less its weight along the hole, above nought. [N/m]
    pub lying_drag: f64,
    /// Compression from which it winds. [N]
    pub helix_onset: f64,
    /// Length. [m]
    pub length: f64,
}

/// What arrives at the far end of pushed pipe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arrival {
    /// Compression at the far end. [N]
    pub weight: f64,
    /// Length wound into a helix, from the near end. [m]
    pub wound: f64,
    /// Share of a little more push that would arrive. [-]
    pub transfer: f64,
}

impl Arrival {
    /// Whether more push no longer helps.
    pub fn locked_up(&self) -> bool {
        self.transfer < LOCK_UP_TRANSFER
    }
}

/// Compression at the far end for a push at the near end: wound as long as the compression is above the onset of the
/// helix, lying beyond.
pub fn arrival<R: Recorder>(pipe: &PushedPipe, push: f64, rec: &mut R) -> Arrival {
    let PushedPipe { youngs_modulus, second_moment, clearance, friction_factor, lying_drag, helix_onset, length } = *pipe;
    let drag =
        |compression: f64| HelixDrag { lying_drag, friction_factor, clearance, compression, youngs_modulus, second_moment };
    let near_drag = if push > helix_onset { rec.take(drag(push)) } else { lying_drag };
    let winding = friction_factor * clearance / (4.0 * youngs_modulus * second_moment);
    let angle = |compression: f64| (compression * (winding / lying_drag).sqrt()).atan();
    let until_onset = ((angle(push) - angle(helix_onset)) / (lying_drag * winding).sqrt()).max(0.0);
    let wound = until_onset.min(length);
    if until_onset >= length {
        let helix = WeightThroughHelix { push, lying_drag, friction_factor, clearance, youngs_modulus, second_moment, length };
        let weight = rec.take(helix);
        let far_drag = rec.take(drag(weight));
        return Arrival { weight, wound, transfer: rec.take(WeightTransfer { far_drag, near_drag }) };
    }
    let start = push.min(helix_onset);
    rec.note(|| format!("wound over {wound:.1} m, then lying over {:.1} m", length - wound));
    let weight = (start - lying_drag * (length - wound)).max(0.0);
    // What is used up on the way does not arrive, and neither does a little more.
    let far_drag = if weight > 0.0 { lying_drag } else { 0.0 };
    Arrival { weight, wound, transfer: rec.take(WeightTransfer { far_drag, near_drag }) }
}

#[cfg(test)]
mod tests;
