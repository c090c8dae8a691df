//! The safe speeds of many bit depths at once, which share what swab and surge cost at common speeds.
//!
//! A search at each bit depth asks for the cost of nearly the same rings at nearly the same speeds, never quite the same. Here the
//! cost is worked out at speeds that stand a constant ratio apart, each when it is first wanted, and read between them by the
//! polynomial through [`AROUND`] of them in the logarithm of the speed.
//!
//! How exact that is: with u = ln v the polynomial is off by at most h⁶ 225/(64 · 720) times the sixth derivative of the cost G by u,
//! h = ln [`RATIO`]. A laminar cost a + b vⁿ has n⁶ b vⁿ of that, a turbulent one less than 2⁶ G: 2·10⁻¹¹ of G. Sharpest is the blend of
//! the regimes, ln(1 + e^(12 x))/12 of the distance x between the lines of laminar and transitional flow, whose slopes differ by
//! 2 (2 - n): the sixth derivative of ln(1 + eʸ) is a quarter at most, which makes 12⁵ (2 (2 - n))⁶/4, and 10⁻⁵ of G at an index of 0.6,
//! 4·10⁻⁵ at 0.2. A speed is off by that over the slope of ln G there, which is near 2.

use super::{Bit, SLOWEST, Trips, trip};
use rigwright_physics::circulating::losses::LossMethod;
use rigwright_physics::{Off, numerics};
use std::ops::ControlFlow;

/// Each speed over the next slower one. [-]
const RATIO: f64 = 1.02;
/// Speeds that a polynomial goes through: half of them on either side.
const AROUND: usize = 6;
/// Speeds that are faster than the one wanted.
const FASTER: usize = AROUND / 2 - 1;

/// Whether a method has no jump between laminar and turbulent flow.
pub(super) fn runs_smoothly(method: LossMethod) -> bool {
    match method {
        LossMethod::Generalised | LossMethod::Exact => true,
        LossMethod::PowerLaw1995 | LossMethod::BinghamField => false,
    }
}

/// The safe speed of each bit depth, no faster than wanted and nought where none is safe. [m/s]
pub(super) fn each(trips: &Trips, wanted: f64) -> Vec<f64> {
    let mut shared = Shared { trips, wanted, costs: Vec::new(), slowest: vec![None; trips.rings.len()], near: FASTER };
    trips.bits.iter().map(|bit| shared.safe(bit)).collect()
}

struct Shared<'t, 'a, 'b> {
    trips: &'t Trips<'a, 'b>,
    /// [m/s]
    wanted: f64,
    /// By speed and ring, from the fastest down, as far as known. [Pa/m]
    costs: Vec<Vec<Option<f64>>>,
    /// The same at the slowest speed of all. [Pa/m]
    slowest: Vec<Option<f64>>,
    /// The speed at which the last search ended.
    near: usize,
}

impl Shared<'_, '_, '_> {
    /// [m/s]
    fn speed(&self, at: f64) -> f64 {
        self.wanted * RATIO.powf(FASTER as f64 - at)
    }

    /// Tells what is left at each depth of open hole at one of the common speeds, as long as it is told to go on. [Pa]
    fn left(&mut self, bit: &Bit, at: usize, tell: impl FnMut(f64) -> ControlFlow<()>) -> ControlFlow<()> {
        let rings = self.trips.rings.len();
        if self.costs.len() <= at {
            self.costs.resize_with(at + 1, || vec![None; rings]);
        }
        let speed = self.speed(at as f64);
        left(self.trips, bit, (speed, &mut self.costs[at]), tell)
    }

    fn is_safe(&mut self, bit: &Bit, at: usize) -> bool {
        self.left(bit, at, stop_below_nought).is_continue()
    }

    /// The safe speed of one bit depth. [m/s]
    fn safe(&mut self, bit: &Bit) -> f64 {
        if self.is_safe(bit, FASTER) {
            return self.wanted;
        }
        let Some(slow) = self.fastest_safe(bit) else {
            let slowest = SLOWEST.min(self.wanted);
            if left(self.trips, bit, (slowest, &mut self.slowest), stop_below_nought).is_break() {
                return 0.0;
            }
            // So slow that it is hardly a speed: looked for by itself.
            return self.trips.safe(std::slice::from_ref(bit), self.wanted, None).map_or(self.wanted, |safe| safe.speed);
        };
        self.near = slow;
        let first = slow - AROUND / 2;
        let mut around = vec![[0.0; AROUND]; self.trips.rooms.len()];
        for index in 0..AROUND {
            let mut depths = around.iter_mut();
            let _ = self.left(bit, first + index, |left| {
                depths.next().into_iter().for_each(|lefts| lefts[index] = left);
                ControlFlow::Continue(())
            });
        }
        let left = |at: f64| {
            let weights = weights(at - first as f64);
            let left = |lefts: &[f64; AROUND]| weights.iter().zip(lefts).map(|(weight, left)| weight * left).sum::<f64>();
            around.iter().map(left).fold(f64::INFINITY, f64::min)
        };
        let (fast, slow) = ((slow - 1) as f64, slow as f64);
        self.speed(numerics::root(left, fast, slow).unwrap_or(slow))
    }

    /// The fastest of the common speeds that is safe, where the one wanted is not: what is left falls as the speed grows.
    fn fastest_safe(&mut self, bit: &Bit) -> Option<usize> {
        let last = FASTER + ((self.wanted / SLOWEST).ln() / RATIO.ln()).max(0.0) as usize;
        let (mut safe_at, mut unsafe_at, mut stride) = (self.near, self.near, 1);
        // Longer and longer strides from where the last search ended, then halves.
        if self.is_safe(bit, self.near) {
            loop {
                unsafe_at = safe_at.saturating_sub(stride).max(FASTER);
                if unsafe_at == FASTER || !self.is_safe(bit, unsafe_at) {
                    break;
                }
                (safe_at, stride) = (unsafe_at, 2 * stride);
            }
        } else {
            loop {
                safe_at = (unsafe_at + stride).min(last);
                if self.is_safe(bit, safe_at) {
                    break;
                }
                if safe_at == last {
                    self.near = last;
                    return None;
                }
                (unsafe_at, stride) = (safe_at, 2 * stride);
            }
        }
        while safe_at - unsafe_at > 1 {
            let middle = usize::midpoint(unsafe_at, safe_at);
            if self.is_safe(bit, middle) { safe_at = middle } else { unsafe_at = middle }
        }
        Some(safe_at)
    }
}

/// Tells what is left at each depth of open hole at a speed, of what the rings cost then as far as known, as long as it is told to
/// go on. [Pa]
fn left(
    trips: &Trips,
    bit: &Bit,
    (speed, costs): (f64, &mut [Option<f64>]),
    mut tell: impl FnMut(f64) -> ControlFlow<()>,
) -> ControlFlow<()> {
    let moves = trip(trips.scene, (speed, trips.pumped), &mut Off);
    let cost = |ring: usize| *costs[ring].get_or_insert_with(|| trips.gradient(ring, &moves));
    trips.left(bit, cost, |_, left| tell(left))
}

/// A depth with nothing left makes a speed unsafe: no other needs looking at.
fn stop_below_nought(left: f64) -> ControlFlow<()> {
    if left < 0.0 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
}

/// Weights of values at 0, 1, 2, … in the polynomial through them.
fn weights(at: f64) -> [f64; AROUND] {
    std::array::from_fn(|own| {
        let others = (0..AROUND).filter(|other| *other != own).map(|other| other as f64);
        others.map(|other| (at - other) / (own as f64 - other)).product()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Scene, sweep};
    use rigwright_well::{LossMethod, Operation};

    /// The search at each bit depth by itself is the measure, with muds from thin to thick.
    #[test]
    fn law_speeds_that_are_shared_are_those_of_each_bit_depth_by_itself() {
        let (mut slowed, mut never, mut most) = (0, 0, 0.0_f64);
        for (name, method, thicker) in [
            ("ostrick", LossMethod::Generalised, 0.3),
            ("ostrick", LossMethod::Generalised, 1.0),
            ("ostrick", LossMethod::Exact, 1.0),
            ("ostrick", LossMethod::Exact, 4.0),
            ("tolvane", LossMethod::Generalised, 1.0),
            ("tolvane", LossMethod::Generalised, 10.0),
            ("quellmere", LossMethod::Generalised, 2.0),
        ] {
            let mut fit = crate::example(name);
            for section in &mut fit.well.sections {
                let mud = &mut *section.mud;
                mud.losses = method;
                for rheogram in std::iter::once(&mut mud.rheogram).chain(&mut mud.other_rheograms) {
                    rheogram.readings.iter_mut().for_each(|reading| reading.dial *= thicker);
                }
            }
            let basis = Basis::new(&fit);
            for section in 0..fit.well.sections.len() {
                let bottom = fit.well.sections[section].bottom;
                for operation in [Operation::PullingOut, Operation::RunningIn, Operation::RunningCasing] {
                    let scene = Scene::new(&basis, sweep::situation(&fit, section, operation, bottom, bottom));
                    let depths: Vec<f64> = (1..=40).map(|part| bottom * f64::from(part) / 40.0).collect();
                    let trips = Trips::new(&scene, (operation, 0.0), &depths);
                    for wanted in [0.4, 5.0] {
                        for (shared, alone) in each(&trips, wanted).iter().zip(trips.each(wanted)) {
                            let alone = alone.unwrap().speed;
                            let off = (shared - alone).abs() / alone.max(f64::MIN_POSITIVE);
                            most = most.max(off);
                            slowed += usize::from(alone > 0.0 && alone < wanted);
                            never += usize::from(alone <= 0.0);
                        }
                    }
                }
            }
        }
        assert!(slowed > 1000 && never > 100 && most < 1e-5, "{slowed} {never} {most}");
    }
}
