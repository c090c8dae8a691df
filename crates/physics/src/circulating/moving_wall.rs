//! Laminar flow of a Herschel-Bulkley mud through a slot, one wall of which moves against it: surge and swab, exactly.
//!
//! The slot is the unrolled annulus: one wall is the hole, the other the pipe. Velocities of the mud count against the pipe's own
//! motion, so that displaced mud is positive while the pipe's wall moves at minus its speed. The shear stress runs straight across the
//! slot, from that at the pipe's wall to that at the hole's; it falls by the pressure gradient times the height. A stress is positive
//! where the velocity grows from pipe to hole. Integrals over the height become integrals over the stress, which close. Both
//! stresses are found by Newton's steps where the mud flows against the wall, and by two nested searches elsewhere.

use super::laminar::{stress_estimate, wall_stress};
use super::losses::{LossMethod, Stream, Turbulence, blended};
use super::passage::Passage;
use super::rheology::{HerschelBulkley, LARGEST_INDEX, LEAST_INDEX};
use super::surge::{ClingingExact, ClingingTurbulent, EffectiveVelocity, diameter_ratio};
use super::viscometer::MudRheology;
use crate::{Formula, FormulaRecord, Kind, Recorder, Root, formula, numerics};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] =
    &[MovingWallSpeed::RECORD, MovingWallVelocity::RECORD, SlotWallSpeed::RECORD, SlotStressAtRest::RECORD];

/// Integral of the shear rate over the stress, from nought; the same for both signs of the stress.
fn rate_integral(stress: f64, curve: &HerschelBulkley) -> (f64, f64) {
    let n = curve.flow_index;
    let over = (stress.abs() - curve.yield_stress).max(0.0);
    let rate = (over / curve.consistency).powf(1.0 / n);
    let first = n / (n + 1.0) * over * rate;
    // Integral of stress times rate: that of what is over the yield stress, and the yield stress itself.
    let second = n / (2.0 * n + 1.0) * over * over * rate + curve.yield_stress * first;
    (first, second * stress.signum())
}

formula! {
    /// Speed of the moving wall of a slot that goes with the stresses at both walls.
    pub struct MovingWallSpeed;
    slug "moving-wall-speed";
    equation "vw = (h/Δ) (Φ(τp) - Φ(τp-Δ)), Φ(τ) = n/(n+1) (|τ|-τy)₊^((n+1)/n) / K^(1/n)";
    law Homogeneous;
    source "integral of the shear rate over the slot, as in Chhabra & Richardson, Non-Newtonian Flow and Applied Rheology, ch. 3";
    given {
        /// stress at the wall of the pipe, with its sign
        pipe_stress "τp" ShearStress must at_least(0.0);
        /// fall of the stress across the slot: pressure gradient times height
        stress_fall "Δ" ShearStress must POSITIVE;
        /// yield stress
        yield_stress "τy" ShearStress must NON_NEGATIVE;
        /// consistency index
        consistency "K" Consistency must POSITIVE;
        /// flow index
        flow_index "n" Ratio must between(LEAST_INDEX, LARGEST_INDEX) valid between(0.2, 1.0);
        /// height of the slot: half of hole less pipe diameter
        slot_height "h" Diameter must POSITIVE;
    }
    /// speed of the wall
    gives "vw" Speed;
    value |f| {
        let curve =
            HerschelBulkley { yield_stress: f.yield_stress, consistency: f.consistency, flow_index: f.flow_index };
        let rates = rate_integral(f.pipe_stress, &curve).0 - rate_integral(f.pipe_stress - f.stress_fall, &curve).0;
        f.slot_height * (rates / f.stress_fall)
    }
}

formula! {
    /// Mean velocity of the mud in a slot one wall of which moves, from the stresses at both walls.
    pub struct MovingWallVelocity;
    slug "moving-wall-mean-velocity";
    equation "vm = (h/Δ²) (Ψ(τp) - Ψ(τp-Δ)) - vw τp/Δ, Ψ(τ) = ±(n/(2n+1) (|τ|-τy)₊^((2n+1)/n)/K^(1/n) + τy Φ(τ))";
    law Homogeneous;
    source "integral of the velocity over the slot, as in Chhabra & Richardson, Non-Newtonian Flow and Applied Rheology, ch. 3";
    given {
        /// stress at the wall of the pipe, with its sign
        pipe_stress "τp" ShearStress must at_least(0.0);
        /// fall of the stress across the slot: pressure gradient times height
        stress_fall "Δ" ShearStress must POSITIVE;
        /// yield stress
        yield_stress "τy" ShearStress must NON_NEGATIVE;
        /// consistency index
        consistency "K" Consistency must POSITIVE;
        /// flow index
        flow_index "n" Ratio must between(LEAST_INDEX, LARGEST_INDEX) valid between(0.2, 1.0);
        /// height of the slot: half of hole less pipe diameter
        slot_height "h" Diameter must POSITIVE;
        /// speed of the moving wall with these stresses
        wall_speed "vw" Speed must ANY;
    }
    /// mean velocity, against the motion of the wall
    gives "vm" Speed;
    value |f| {
        let curve =
            HerschelBulkley { yield_stress: f.yield_stress, consistency: f.consistency, flow_index: f.flow_index };
        let moments = rate_integral(f.pipe_stress, &curve).1 - rate_integral(f.pipe_stress - f.stress_fall, &curve).1;
        f.slot_height * (moments / f.stress_fall / f.stress_fall) - f.wall_speed * (f.pipe_stress / f.stress_fall)
    }
}

formula! {
    /// Speed at which a slot's wall must move to drag as much mud along as the pipe does in its annulus.
    ///
    /// Exact for a Newtonian fluid; the slot alone drags more than a wide annulus does.
    pub struct SlotWallSpeed;
    slug "slot-wall-speed";
    equation "vw = 2 κ vp";
    law Homogeneous;
    source "axial and plane Couette flow of a Newtonian fluid: the annulus drags κ vp along, a slot half the speed of its wall";
    given {
        /// clinging constant of the annulus
        clinging "κ" Ratio must between(0.0, 1.0) valid between(0.0, 0.5);
        /// speed of the pipe
        pipe_speed "vp" Speed must NON_NEGATIVE;
    }
    /// speed of the slot's wall
    gives "vw" Speed;
    value |f| 2.0 * f.clinging * f.pipe_speed
}

formula! {
    /// Stress that both walls of a slot would bear at rest under the same pressure gradient.
    pub struct SlotStressAtRest;
    slug "slot-stress-at-rest";
    equation "τw = Δ/2";
    law Homogeneous;
    source "force balance of the slot: the stress that both walls would bear if neither moved";
    given {
        /// fall of the stress across the slot
        stress_fall "Δ" ShearStress must ANY;
    }
    /// stress at the walls of a slot at rest with the same pressure gradient
    gives "τw" ShearStress;
    value |f| 0.5 * f.stress_fall
}

/// Steps of Newton that are tried: five are enough for any index and yield stress in use.
const STEPS: usize = 20;
/// A step of this share of the value is the last: each is about the square of the one before, so that the next would change less
/// than a thousand-millionth. [-]
const LAST_STEP: f64 = 1e-5;

/// What moves in a slot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MovingWall {
    /// Height of the slot. [m]
    pub slot_height: f64,
    /// Speed of the moving wall, a magnitude. [m/s]
    pub wall_speed: f64,
    /// Mean velocity of the mud against that motion; negative where it follows the wall. [m/s]
    pub mud_velocity: f64,
}

impl MovingWall {
    fn speed(&self, curve: &HerschelBulkley, pipe_stress: f64, stress_fall: f64) -> MovingWallSpeed {
        let HerschelBulkley { yield_stress, consistency, flow_index } = *curve;
        MovingWallSpeed { pipe_stress, stress_fall, yield_stress, consistency, flow_index, slot_height: self.slot_height }
    }

    fn velocity(&self, curve: &HerschelBulkley, pipe_stress: f64, stress_fall: f64) -> MovingWallVelocity {
        let HerschelBulkley { yield_stress, consistency, flow_index } = *curve;
        let (slot_height, wall_speed) = (self.slot_height, self.wall_speed);
        MovingWallVelocity { pipe_stress, stress_fall, yield_stress, consistency, flow_index, slot_height, wall_speed }
    }

    /// Stress at the pipe's wall at a fall of the stress: the speed of the wall grows with it. With the fall evenly on both walls
    /// nothing moves; with all of the slot sheared at least as fast as the wall's speed asks, more than that speed comes out.
    fn pipe_stress(&self, curve: &HerschelBulkley, stress_fall: f64) -> f64 {
        let low = 0.5 * stress_fall;
        let HerschelBulkley { yield_stress, consistency, flow_index } = *curve;
        let high = stress_fall + yield_stress + consistency * (self.wall_speed / self.slot_height).powf(flow_index);
        let excess = |stress: f64| self.speed(curve, stress, stress_fall).value() - self.wall_speed;
        numerics::root(excess, low, high * (1.0 + 1e-9)).unwrap_or(low)
    }

    /// Fall of the stress across the slot, signed as the pressure gradient: positive where it drives the mud against the wall's motion.
    ///
    /// The mean velocity grows with it, from minus half the speed of the wall at none, so that one fall gives the velocity.
    /// Mud that follows the wall faster than that is the same flow seen from the wall.
    pub fn stress_fall<R: Recorder>(&self, curve: &HerschelBulkley, rec: &mut R) -> f64 {
        if self.wall_speed <= 0.0 || curve.consistency <= 0.0 {
            let passage = Passage::Annulus { hole_diameter: 4.0 * self.slot_height, pipe_diameter: 2.0 * self.slot_height };
            let still =
                |velocity: f64| if velocity > 0.0 { 2.0 * wall_stress(curve, &passage, velocity, &mut crate::Off) } else { 0.0 };
            return still(self.mud_velocity) - still(-self.mud_velocity);
        }
        if self.mud_velocity < self.drift() {
            let seen = MovingWall { mud_velocity: -self.mud_velocity - self.wall_speed, ..*self };
            return -seen.stress_fall(curve, rec);
        }
        let fall = self.two_layers(curve).unwrap_or_else(|| self.searched(curve));
        if R::ON {
            let pipe_stress = self.pipe_stress(curve, fall);
            rec.root(Root {
                equation: "mean velocity in the slot = that of the displaced mud, while the wall has its speed",
                sign: "Δ",
                meaning: "fall of the stress across the slot",
                kind: Kind::ShearStress,
                value: fall,
                residual: self.excess(curve, fall),
                residual_kind: Kind::Speed,
            });
            rec.root(Root {
                equation: "speed of the wall from the stresses = speed of the wall",
                sign: "τp",
                meaning: "stress at the wall of the pipe",
                kind: Kind::ShearStress,
                value: pipe_stress,
                residual: self.speed(curve, pipe_stress, fall).value() - self.wall_speed,
                residual_kind: Kind::Speed,
            });
            rec.take(self.speed(curve, pipe_stress, fall));
            rec.take(self.velocity(curve, pipe_stress, fall));
        }
        fall
    }

    /// Mean velocity of mud that the wall alone drags along, without a pressure gradient. [m/s]
    fn drift(&self) -> f64 {
        -0.5 * self.wall_speed
    }

    /// Mean velocity at a fall of the stress, less that of the mud: grows with the fall. [m/s]
    fn excess(&self, curve: &HerschelBulkley, fall: f64) -> f64 {
        self.velocity(curve, self.pipe_stress(curve, fall), fall).value() - self.mud_velocity
    }

    /// Fall of the stress by search: holds wherever the mud goes against the wall faster than it drifts. [Pa]
    fn searched(&self, curve: &HerschelBulkley) -> f64 {
        let excess = |fall: f64| self.excess(curve, fall);
        // A slot at rest with as much flow as mud and wall together lies near the root.
        let passage = Passage::Annulus { hole_diameter: 4.0 * self.slot_height, pipe_diameter: 2.0 * self.slot_height };
        let near = 2.0 * wall_stress(curve, &passage, self.mud_velocity - self.drift(), &mut crate::Off);
        let (mut low, mut high) = (0.8 * near, 1.02 * near);
        for _ in 0..60 {
            if excess(high) >= 0.0 {
                break;
            }
            (low, high) = (high, 2.0 * high);
        }
        for _ in 0..60 {
            if excess(low) <= 0.0 {
                break;
            }
            low *= 0.5;
        }
        numerics::root(excess, low, high).unwrap_or(near)
    }

    /// Fall of the stress where the mud as a whole flows against the wall, by Newton's steps; `None` elsewhere, and where they do
    /// not settle. [Pa]
    ///
    /// Some mud then flows against the wall, so that the velocity has a peak u and a layer is sheared at each wall. Both formulas,
    /// solved for what the stresses at pipe and hole have over the yield stress,
    /// ep = C ((u+vw) Δ)^m and eh = C (u Δ)^m with m = n/(n+1) and C = ((n+1)/(n h) K^(1/n))^m,
    /// leave two equations that are nearly straight in u and Δ, whatever the yield stress:
    /// Δ = 2 τy + ep + eh and (u - vm) Δ = n/(2n+1) ((u+vw) ep + u eh).
    fn two_layers(&self, curve: &HerschelBulkley) -> Option<f64> {
        let MovingWall { slot_height, wall_speed, mud_velocity } = *self;
        if mud_velocity < 0.0 {
            return None;
        }
        let HerschelBulkley { yield_stress, consistency, flow_index: n } = *curve;
        let exponent = n / (n + 1.0);
        let constant = ((n + 1.0) / (n * slot_height)).powf(exponent) * consistency.powf(1.0 / (n + 1.0));
        let deficit = n / (2.0 * n + 1.0);
        let passage = Passage::Annulus { hole_diameter: 4.0 * slot_height, pipe_diameter: 2.0 * slot_height };
        let mut fall = 2.0 * stress_estimate(curve, &passage, mud_velocity - self.drift());
        let sheared = 1.0 - (2.0 * yield_stress / fall).min(1.0);
        let mut peak = (mud_velocity + 0.25 * sheared * wall_speed) / (1.0 - deficit * sheared);
        for _ in 0..STEPS {
            let relative = peak + wall_speed;
            let pipe_over = constant * (relative * fall).powf(exponent);
            let hole_over = constant * (peak * fall).powf(exponent);
            let (over, carried) = (pipe_over + hole_over, relative * pipe_over + peak * hole_over);
            let stress = fall - 2.0 * yield_stress - over;
            let flow = (peak - mud_velocity) * fall - deficit * carried;
            let stress_by_peak = -exponent * (pipe_over / relative + hole_over / peak);
            let stress_by_fall = 1.0 - exponent * over / fall;
            let flow_by_peak = fall - deficit * (1.0 + exponent) * over;
            let flow_by_fall = peak - mud_velocity - deficit * exponent * carried / fall;
            let determinant = stress_by_peak * flow_by_fall - stress_by_fall * flow_by_peak;
            let peak_step = (stress_by_fall * flow - stress * flow_by_fall) / determinant;
            let fall_step = (stress * flow_by_peak - stress_by_peak * flow) / determinant;
            if !(peak_step.is_finite() && fall_step.is_finite()) {
                return None;
            }
            let last = peak_step.abs() <= LAST_STEP * peak && fall_step.abs() <= LAST_STEP * fall;
            // Neither may change its sign.
            (peak, fall) = ((peak + peak_step).max(0.1 * peak), (fall + fall_step).max(0.1 * fall));
            if last {
                return Some(fall);
            }
        }
        None
    }
}

/// An annulus in which the pipe moves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MovingPipe {
    /// Diameter of the hole or casing. [m]
    pub hole_diameter: f64,
    /// Outside diameter of the pipe. [m]
    pub pipe_diameter: f64,
    /// Speed of the pipe, a magnitude. [m/s]
    pub pipe_speed: f64,
    /// Mean velocity of the mud against the pipe's motion. [m/s]
    pub mud_velocity: f64,
}

impl MovingPipe {
    fn clinging(&self) -> ClingingExact {
        ClingingExact { diameter_ratio: diameter_ratio(self.hole_diameter, self.pipe_diameter) }
    }

    /// Stress that the walls would bear at rest under the same pressure gradient, in laminar flow; negative where the mud is dragged
    /// along faster than it flows. [Pa]
    pub fn laminar_stress<R: Recorder>(&self, curve: &HerschelBulkley, rec: &mut R) -> f64 {
        let clinging = rec.take(self.clinging());
        let wall = MovingWall {
            slot_height: 0.5 * (self.hole_diameter - self.pipe_diameter),
            wall_speed: rec.take(SlotWallSpeed { clinging, pipe_speed: self.pipe_speed }),
            mud_velocity: self.mud_velocity,
        };
        let stress_fall = wall.stress_fall(curve, rec);
        rec.take(SlotStressAtRest { stress_fall })
    }

    /// Pressure per length from that stress, or more where the flow is turbulent: then as at the effective velocity by the line
    /// through Burkhardt's chart. [Pa/m]
    pub fn gradient<R: Recorder>(
        &self,
        (method, mud, density): (LossMethod, &MudRheology, f64),
        laminar_stress: f64,
        rec: &mut R,
    ) -> f64 {
        if laminar_stress.abs() <= 0.0 {
            return 0.0;
        }
        let diameter_ratio = diameter_ratio(self.hole_diameter, self.pipe_diameter);
        let clinging = rec.take(ClingingTurbulent { diameter_ratio });
        let (mud_velocity, pipe_speed) = (self.mud_velocity, self.pipe_speed);
        let velocity = rec.take(EffectiveVelocity { mud_velocity, clinging, pipe_speed }).abs();
        let passage = Passage::Annulus { hole_diameter: self.hole_diameter, pipe_diameter: self.pipe_diameter };
        let turbulence = Turbulence { wall_stress: laminar_stress.abs(), implicit: method == LossMethod::Exact };
        blended(mud, &passage, Stream { velocity, density }, turbulence, rec).gradient.copysign(laminar_stress)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    /// Both ways to the stresses solve the same two equations, whatever yields, thins or moves.
    #[test]
    fn law_the_steps_of_newton_end_where_the_search_does() {
        let mut settled = 0;
        for flow_index in [LEAST_INDEX, 0.2, 0.35, 0.5, 0.7, 0.9, 1.0, 1.2, LARGEST_INDEX] {
            for (yield_stress, consistency) in
                [(0.0, 0.001), (0.0, 5.0), (0.01, 2.0), (0.5, 0.05), (5.0, 0.5), (8.0, 1.5), (30.0, 0.01)]
            {
                let curve = HerschelBulkley { yield_stress, consistency, flow_index };
                for (slot_height, wall_speed) in [(0.004, 0.001), (0.02, 0.01), (0.05, 0.4), (0.15, 5.0)] {
                    for share in [0.0, 1e-6, 0.01, 0.1, 0.5, 1.0, 3.0, 40.0] {
                        let wall = MovingWall { slot_height, wall_speed, mud_velocity: share * wall_speed };
                        let Some(fall) = wall.two_layers(&curve) else { panic!("{wall:?} {curve:?} does not settle") };
                        let searched = wall.searched(&curve);
                        assert!((fall - searched).abs() <= 1e-9 * searched, "{wall:?} {curve:?} {fall} {searched}");
                        settled += 1;
                    }
                }
            }
        }
        assert_eq!(settled, 9 * 7 * 4 * 8);
    }

    /// Definition: what the steps find satisfies both formulas.
    #[test]
    fn law_the_stresses_give_both_velocities() {
        let curve = HerschelBulkley { yield_stress: 4.0, consistency: 0.6, flow_index: 0.6 };
        for mud_velocity in [0.0, 0.05, 0.3, 2.0] {
            let wall = MovingWall { slot_height: 0.03, wall_speed: 0.4, mud_velocity };
            let fall = wall.stress_fall(&curve, &mut Off);
            let pipe_stress = wall.pipe_stress(&curve, fall);
            assert!((wall.speed(&curve, pipe_stress, fall).value() - 0.4).abs() < 1e-9);
            assert!((wall.velocity(&curve, pipe_stress, fall).value() - mud_velocity).abs() < 1e-9);
        }
    }
}
