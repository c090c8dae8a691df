//! Drag and torque of a string along the hole: the soft-string model, marched from the bit up.
//!
//! The string lies on the wall like a heavy rope: its side force per length is what tension on a bend and weight
//! across the hole press together, and friction opposes the motion of its surface, along and around. Tension is the
//! effective one, positive in tension; weights are buoyed. On top of the soft string, where they are known, come the push of
//! a stiff pipe at changes of bend, the side force of wound pipe and the lift of moving mud. Cuttings and keyseats are left out.
//!
//! *Sources*: Johancsik, Friesen & Dawson, JPT June 1984; vector form after Sheppard, Wick & Burgess, SPE Drilling
//! Engineering, December 1987 (both from memory).

mod contact;
mod grid;
mod march;

use crate::{Formula, FormulaRecord, formula};

pub use contact::{FlowLift, StiffnessForce, TensionWithContact, TorqueWithContact};
pub use grid::{DragGrid, Wall};
pub use march::{BitLoad, DragNode, Hanging, StringMotion, StringPiece, neutral_point};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] =
    &[AxialFriction::RECORD, TurningFriction::RECORD, SideForce::RECORD, TensionAbove::RECORD, TorqueAbove::RECORD];

/// The formulas of what the soft string leaves out.
pub(super) const CONTACT_RECORDS: &[&FormulaRecord] = contact::RECORDS;

formula! {
    /// Share of the friction factor that acts along the hole: friction opposes the velocity of the pipe's surface.
    pub struct AxialFriction;
    slug "axial-friction";
    equation "μ_a = μ v/√[v² + (ω r)²]";
    law Homogeneous;
    source "Coulomb friction";
    given {
        /// friction factor
        friction_factor "μ" Ratio must between(0.0, 2.0) valid between(0.0, 0.6);
        /// speed of the string, upwards positive
        axial_speed "v" Speed must ANY;
        /// rotary speed
        rotary_speed "ω" RotarySpeed must ANY;
        /// radius that touches the wall: of the tool joint
        radius "r" Diameter must NON_NEGATIVE;
    }
    /// friction factor along the hole, positive while pulling
    gives "μ_a" Ratio;
    value |f| f.friction_factor * shares(f.axial_speed, f.rotary_speed * f.radius).0
}

formula! {
    /// Share of the friction factor that acts around the pipe.
    pub struct TurningFriction;
    slug "turning-friction";
    equation "μ_t = μ ω r/√[v² + (ω r)²]";
    law Homogeneous;
    source "Coulomb friction";
    given {
        /// friction factor
        friction_factor "μ" Ratio must between(0.0, 2.0) valid between(0.0, 0.6);
        /// speed of the string, upwards positive
        axial_speed "v" Speed must ANY;
        /// rotary speed
        rotary_speed "ω" RotarySpeed must ANY;
        /// radius that touches the wall: of the tool joint
        radius "r" Diameter must NON_NEGATIVE;
    }
    /// friction factor around the pipe
    gives "μ_t" Ratio;
    value |f| f.friction_factor * shares(f.axial_speed, f.rotary_speed * f.radius).1
}

formula! {
    /// Force per length with which a soft string lies on the wall.
    ///
    /// The size of the vector `F κ + w⊥`: tension on the bend plus weight across the hole.
    pub struct SideForce;
    slug "side-force";
    equation "N = √[(F κ)² + 2 F w κ_v + (w sin α)²]";
    law Homogeneous;
    source "Johancsik, Friesen & Dawson, JPT June 1984; Sheppard, Wick & Burgess, SPE Drilling Engineering, December 1987 (from memory)";
    given {
        /// effective tension
        effective_tension "F" Force must ANY;
        /// buoyed weight per length
        buoyed_weight "w" ForcePerLength must ANY;
        /// curvature of the hole
        curvature "κ" Curvature must NON_NEGATIVE;
        /// vertical part of the curvature: how fast cos α grows downwards; negative in a build
        vertical_curvature "κ_v" Curvature must ANY;
        /// sine of the inclination
        sine "sin α" Ratio must between(0.0, 1.0);
    }
    /// side force per length
    gives "N" ForcePerLength;
    value |f| side_force(f.effective_tension, f.buoyed_weight, f.curvature, f.vertical_curvature, f.sine)
}

formula! {
    /// Effective tension at the top of a step from that at its bottom.
    pub struct TensionAbove;
    slug "tension-above";
    equation "F₂ = F₁ + w ΔV + μ_a N ΔL";
    law Homogeneous;
    source "Johancsik, Friesen & Dawson, JPT June 1984 (from memory)";
    given {
        /// effective tension below
        tension_below "F₁" Force must ANY;
        /// buoyed weight per length
        buoyed_weight "w" ForcePerLength must ANY;
        /// vertical depth of the step
        vertical_step "ΔV" Depth must ANY;
        /// friction factor along the hole, positive while pulling
        axial_friction "μ_a" Ratio must ANY;
        /// side force per length
        side_force "N" ForcePerLength must NON_NEGATIVE;
        /// length of the step
        step "ΔL" Depth must NON_NEGATIVE;
    }
    /// effective tension above
    gives "F₂" Force;
    value |f| f.tension_below + f.buoyed_weight * f.vertical_step + f.axial_friction * f.side_force * f.step
}

formula! {
    /// Torque at the top of a step from that at its bottom.
    pub struct TorqueAbove;
    slug "torque-above";
    equation "T₂ = T₁ + μ_t N r ΔL";
    law Homogeneous;
    source "Johancsik, Friesen & Dawson, JPT June 1984 (from memory)";
    given {
        /// torque below
        torque_below "T₁" Torque must ANY;
        /// friction factor around the pipe
        turning_friction "μ_t" Ratio must ANY;
        /// side force per length
        side_force "N" ForcePerLength must NON_NEGATIVE;
        /// radius that touches the wall: of the tool joint
        radius "r" Diameter must NON_NEGATIVE;
        /// length of the step
        step "ΔL" Depth must NON_NEGATIVE;
    }
    /// torque above
    gives "T₂" Torque;
    value |f| f.torque_below + f.turning_friction * f.side_force * f.radius * f.step
}

/// Shares of friction along and around, by the direction in which the surface of the pipe moves; none at rest.
fn shares(along: f64, around: f64) -> (f64, f64) {
    let speed = if around == 0.0 { along.abs() } else { along.hypot(around) };
    if speed > 0.0 { (along / speed, around / speed) } else { (0.0, 0.0) }
}

/// A march waits for the tension: what does not depend on it is multiplied first.
#[inline]
fn side_force(tension: f64, weight: f64, curvature: f64, vertical_curvature: f64, sine: f64) -> f64 {
    let across = weight * sine;
    let (square, cross) = (curvature * curvature, 2.0 * weight * vertical_curvature);
    ((square * tension + cross) * tension + across * across).max(0.0).sqrt()
}

#[cfg(test)]
mod tests;
