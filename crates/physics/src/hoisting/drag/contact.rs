//! What the soft string leaves out, as terms of their own: the push of a stiff pipe where the hole changes its bend, the lift
//! of mud that flows past, and the friction of both.
//!
//! Curvature of the hole jumps where one arc of the survey meets the next. A stiff pipe cannot follow at once: its moment E I κ
//! dies away over a length that tension sets, or the clearance where tension is small, and the wall has to hold it. The wound
//! pipe's extra side force is in `rotating::buckled`.

use crate::{Formula, FormulaRecord, formula};
use std::f64::consts::FRAC_PI_4;

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] =
    &[StiffnessForce::RECORD, FlowLift::RECORD, TensionWithContact::RECORD, TorqueWithContact::RECORD];

formula! {
    /// Push of a stiff pipe on the wall where the curvature of the hole changes.
    ///
    /// In tension the moment dies away over √(E I/F), which pushes with Δκ √(E I F), like a rope with stiffness on a pulley.
    /// With little tension the pipe spans from wall to wall over √(12 r/Δκ), and pushes at both ends.
    pub struct StiffnessForce;
    slug "stiffness-force";
    equation "Q = max{Δκ √(E I max(F, 0)), E I Δκ √[Δκ/(3 r)]}";
    law Homogeneous;
    source "derived: beam in tension leaving a bend (E I y'''' = F y''), and beam between two walls";
    given {
        /// change of curvature
        bend_change "Δκ" Curvature must NON_NEGATIVE;
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// second moment of area
        second_moment "I" SecondMoment must NON_NEGATIVE;
        /// effective tension
        effective_tension "F" Force must ANY;
        /// radial clearance of the body
        clearance "r" Diameter must at_least(1e-5);
    }
    /// push on the wall
    gives "Q" Force;
    value |f| stiffness_force(f.youngs_modulus * f.second_moment, f.bend_change, f.effective_tension, f.clearance)
}

formula! {
    /// Lift of mud that flows up past pipe, per length: its shear on the pipe and its pressure below the pipe.
    ///
    /// Mud that swab or surge moves acts the same way, against the motion. The shear is that of two like walls.
    pub struct FlowLift;
    slug "flow-lift";
    equation "U = π/4 D D_h g_f";
    law Homogeneous;
    source "derived: balance of forces on pipe with the mud in it; wall shear g_f (D_h - D)/4";
    given {
        /// outside diameter of the pipe
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// diameter of the hole
        hole_diameter "D_h" Diameter must NON_NEGATIVE;
        /// friction in the annulus per length, positive where the mud flows upwards past the pipe
        gradient "g_f" PressureGradient must ANY;
    }
    /// lift per length, upwards positive
    gives "U" ForcePerLength;
    value |f| FRAC_PI_4 * f.outer_diameter * f.hole_diameter * f.gradient
}

formula! {
    /// Effective tension above a step, with the lift of the mud and the friction of a stiff pipe's push.
    pub struct TensionWithContact;
    slug "tension-with-contact";
    equation "F₃ = F₂ - U ΔL + μ_a Q";
    law Homogeneous;
    source "derived: balance of forces";
    given {
        /// effective tension above the step without them
        tension "F₂" Force must ANY;
        /// lift of the mud per length
        lift "U" ForcePerLength must ANY;
        /// length of the step
        step "ΔL" Depth must NON_NEGATIVE;
        /// friction factor along the hole, positive while pulling
        axial_friction "μ_a" Ratio must ANY;
        /// push on the wall at the top of the step
        push "Q" Force must NON_NEGATIVE;
    }
    /// effective tension
    gives "F₃" Force;
    value |f| f.tension - f.lift * f.step + f.axial_friction * f.push
}

formula! {
    /// Torque above a step, with the friction of a stiff pipe's push.
    pub struct TorqueWithContact;
    slug "torque-with-contact";
    equation "T₃ = T₂ + μ_t r Q";
    law Homogeneous;
    source "derived: balance of moments";
    given {
        /// torque above the step without it
        torque "T₂" Torque must ANY;
        /// friction factor around the pipe
        turning_friction "μ_t" Ratio must ANY;
        /// radius that touches the wall: of the tool joint
        radius "r" Diameter must NON_NEGATIVE;
        /// push on the wall at the top of the step
        push "Q" Force must NON_NEGATIVE;
    }
    /// torque
    gives "T₃" Torque;
    value |f| f.torque + f.turning_friction * f.radius * f.push
}

/// Push for a bending stiffness E I. [N]
#[inline]
pub(super) fn stiffness_force(stiffness: f64, bend_change: f64, tension: f64, clearance: f64) -> f64 {
    let pulled = bend_change * (stiffness * tension.max(0.0)).sqrt();
    pulled.max(stiffness * bend_change * (bend_change / (3.0 * clearance)).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The moment of a beam in tension beyond the end of a bend, marched numerically: M'' = F M/(E I) from M = E I κ dies away
    /// only for one shear at the end of the bend, which is the push.
    #[test]
    fn law_the_push_is_the_shear_that_lets_the_moment_die() {
        let (stiffness, tension, kappa) = (1.7e7, 2.5e5, 0.002);
        let push = stiffness_force(stiffness, kappa, tension, 0.1);
        let end = |shear: f64| {
            let (mut moment, mut slope, step) = (stiffness * kappa, -shear, 0.01);
            for _ in 0..6000 {
                // Midpoint rule.
                let half = (moment + 0.5 * step * slope, slope + 0.5 * step * tension / stiffness * moment);
                (moment, slope) = (moment + step * half.1, slope + step * tension / stiffness * half.0);
            }
            moment
        };
        assert!(end(push * 0.99) > 0.0 && end(push * 1.01) < 0.0, "{} {}", end(push * 0.99), end(push * 1.01));
        let exact = crate::numerics::root(end, push * 0.9, push * 1.1).unwrap();
        assert!((exact / push - 1.0).abs() < 1e-4);
    }

    /// A beam between two walls: deflection κ L²/6 over the span takes up the whole clearance of both sides.
    #[test]
    fn law_little_tension_spans_from_wall_to_wall() {
        let (stiffness, kappa, clearance): (f64, f64, f64) = (1.7e7, 0.002, 0.03);
        let span = (12.0 * clearance / kappa).sqrt();
        assert!((kappa * span * span / 6.0 - 2.0 * clearance).abs() < 1e-12);
        let both_ends = 2.0 * stiffness * kappa / span;
        assert!((stiffness_force(stiffness, kappa, -1e5, clearance) / both_ends - 1.0).abs() < 1e-12);
    }

    /// Lift is shear on the pipe plus pressure under its end, added up over a length.
    #[test]
    fn law_lift_is_shear_and_pressure() {
        let (outer_diameter, hole_diameter, gradient, length) = (0.127, 0.2159, 350.0, 100.0);
        let lift = FlowLift { outer_diameter, hole_diameter, gradient }.value() * length;
        let shear = gradient * 0.25 * (hole_diameter - outer_diameter) * std::f64::consts::PI * outer_diameter * length;
        let pressure = gradient * length * FRAC_PI_4 * outer_diameter * outer_diameter;
        assert!((lift / (shear + pressure) - 1.0).abs() < 1e-12);
    }
}
