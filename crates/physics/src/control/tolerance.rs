//! Kick tolerance: the largest influx that can be shut in and circulated out without breaking a weak point.
//!
//! Single bubble, bottom-hole pressure held at formation pressure, both instants that can govern: the initial
//! shut-in, gas round the collars at the bottom, and the moment when the top of the gas comes to the weak point.
//! The latter is brought back to the bottom by mass, so both are volumes at the bottom. Margins come off the
//! allowed pressure before it is given here. Ask at every depth of the section and for every weak point.

use super::bubble::{Bubble, BubbleState, GasLaw, GasPath, SAME_AMOUNT, SAME_PRESSURE, settled};
use super::gas::GasState;
use super::kick::{AllowableInfluxHeight, InfluxVolumeByMass};
use crate::numerics::root_of_straight;
use crate::{Kind, Off, Recorder, Root};

/// A well with a kick on bottom.
#[derive(Clone, Copy)]
pub struct KickWell<'a> {
    /// Annulus, gas law and temperatures.
    pub path: GasPath<'a>,
    /// Mud weight. [kg/m³]
    pub mud_weight: f64,
    /// Formation pressure at the bottom, gauge. [Pa]
    pub formation_pressure: f64,
}

/// How much of a density [`KickWell::lets_pass`] relies on. [-]
const UNSURE: f64 = 0.9;

/// How much larger than a bubble that may hold as much gas [`KickWell::surely_passes`] takes it. [-]
const LITTLE_MORE: f64 = 1.02;

/// A place that must not break.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeakPoint {
    /// Vertical depth. [m]
    pub vertical_depth: f64,
    /// Pressure that it is allowed, gauge, margins taken off. [Pa]
    pub allowed_pressure: f64,
}

/// How large an influx at the bottom may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Allowed {
    /// None: mud alone brings the weak point to its limit at this formation pressure.
    Nothing,
    /// Up to this volume. [m³]
    Volume(f64),
    /// The weak point sets no limit: the whole hole below it may fill, which is this volume. [m³]
    Everything(f64),
}

impl Allowed {
    /// The volume that may come in: the whole hole below the weak point where that sets no limit. [m³]
    pub fn volume(self) -> f64 {
        match self {
            Allowed::Nothing => 0.0,
            Allowed::Volume(volume) | Allowed::Everything(volume) => volume,
        }
    }
}

/// Kick tolerance against one weak point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KickTolerance {
    /// At the initial shut-in.
    pub at_shut_in: Allowed,
    /// With the top of the gas at the weak point, as a volume at the bottom.
    pub at_weak_point: Allowed,
}

impl KickTolerance {
    /// The instant that allows less. [m³]
    pub fn governing(&self) -> Allowed {
        if self.at_weak_point.volume() < self.at_shut_in.volume() { self.at_weak_point } else { self.at_shut_in }
    }
}

/// A bubble that was looked for, and what it amounts to.
struct Found {
    volume: f64,
    state: BubbleState,
}

/// The hole below a weak point full of gas.
struct Filled {
    /// Its volume. [m³]
    open: f64,
    /// How far the weak point is above its limit then. [Pa]
    excess: f64,
}

impl KickWell<'_> {
    /// Kick tolerance against a weak point; `None` where the gas leaves the range of its correlation.
    pub fn tolerance<R: Recorder>(&self, rec: &mut R, weak: WeakPoint) -> Option<KickTolerance> {
        let filled = match self.filled(rec, weak)? {
            Ok(filled) => filled,
            Err(all) => return Some(KickTolerance { at_shut_in: all, at_weak_point: all }),
        };
        rec.heading("initial shut-in: gas at the bottom");
        let at_shut_in = self.at_shut_in(rec, weak, &filled)?;
        rec.heading("top of the gas at the weak point");
        let at_weak_point = self.at_weak_point(rec, weak, &filled)?.volume;
        Some(KickTolerance { at_shut_in: Allowed::Volume(at_shut_in), at_weak_point: Allowed::Volume(at_weak_point) })
    }

    /// The smaller of both instants alone: half the work of [`KickWell::tolerance`], for sweeps.
    pub fn governing(&self, weak: WeakPoint) -> Option<Allowed> {
        let filled = match self.filled(&mut Off, weak)? {
            Ok(filled) => filled,
            Err(all) => return Some(all),
        };
        let Found { volume, state } = self.at_weak_point(&mut Off, weak, &filled)?;
        // What the weak point lets pass is small enough for the shut-in as well, or the shut-in governs.
        if self.excess(weak, filled.open, self.at_bottom(volume), state) <= 0.0 {
            return Some(Allowed::Volume(volume));
        }
        self.at_shut_in(&mut Off, weak, &filled).map(Allowed::Volume)
    }

    /// Whether a weak point surely lets this volume pass, at a third of the cost of [`KickWell::governing`]: to leave out weak points
    /// that cannot govern. Pressure at the weak point and amount of gas both grow with the volume of a bubble below it, so that it
    /// is enough to find one bubble there that holds more gas and does not break it. False for a gas law without densities.
    pub fn surely_passes(&self, weak: WeakPoint, volume: f64) -> bool {
        self.passes(weak, volume).unwrap_or(false)
    }

    fn passes(&self, weak: WeakPoint, volume: f64) -> Option<bool> {
        let GasLaw::Real { gas, method, atmosphere } = self.path.law else { return None };
        let (alone, open) = (self.mud_alone(weak), self.path.annulus.volume_below(weak.vertical_depth));
        if alone >= 0.0 || volume >= open {
            return Some(false);
        }
        let at_bottom = self.path.state(self.at_bottom(volume))?;
        if self.excess(weak, open, self.at_bottom(volume), at_bottom) > 0.0 {
            return Some(false);
        }
        // As large as the gas can be there: at the pressure of mud alone. Then little larger than the one with as much gas.
        let pressure = weak.allowed_pressure + alone + atmosphere;
        let temperature = (self.path.temperature)(weak.vertical_depth);
        let mut larger = at_bottom.amount / gas.density(&mut Off, method, GasState { pressure, temperature })?;
        for _ in 0..2 {
            let moved = self.carried(open, larger.min(open));
            let state = self.path.state(moved)?;
            if state.amount >= at_bottom.amount && self.excess(weak, open, moved, state) <= 0.0 {
                return Some(true);
            }
            larger = LITTLE_MORE * moved.volume * at_bottom.amount / state.amount;
        }
        Some(false)
    }

    /// A volume that the weak point surely lets pass, at a twentieth of the cost: to leave out weak points that cannot
    /// govern. It takes one density at the weak point and one at the bottom, each 10 % to the safe side, which is more
    /// than pressure and heat change along a bubble. Nought for a gas law without densities.
    pub fn lets_pass(&self, weak: WeakPoint) -> f64 {
        let GasLaw::Real { gas, method, atmosphere } = self.path.law else { return 0.0 };
        let annulus = self.path.annulus;
        let density = |pressure: f64, vertical_depth: f64| {
            let temperature = (self.path.temperature)(vertical_depth);
            gas.density(&mut Off, method, GasState { pressure: pressure + atmosphere, temperature })
        };
        let here = density(weak.allowed_pressure, weak.vertical_depth);
        let bottom = density(self.formation_pressure, annulus.bottom());
        let (Some(here), Some(bottom)) = (here, bottom) else { return 0.0 };
        let difference = self.mud_weight - UNSURE * here;
        let height = -self.mud_alone(weak) / (difference * self.path.gravity);
        if !(difference > 0.0 && height > 0.0) {
            return 0.0;
        }
        if weak.vertical_depth + height >= annulus.bottom() {
            return f64::INFINITY;
        }
        let at_bottom = annulus.volume_below(annulus.bottom() - height);
        let moved = annulus.volume_below(weak.vertical_depth) - annulus.volume_below(weak.vertical_depth + height);
        at_bottom.min(UNSURE * moved * here / bottom)
    }

    /// The hole below a weak point full of gas; or what that settles already: no influx at all, or no limit.
    fn filled<R: Recorder>(&self, rec: &mut R, weak: WeakPoint) -> Option<Result<Filled, Allowed>> {
        if self.mud_alone(weak) > 0.0 {
            rec.note(|| "The mud column alone brings the weak point above its allowed pressure: no tolerance.".into());
            return Some(Err(Allowed::Nothing));
        }
        let open = self.path.annulus.volume_below(weak.vertical_depth);
        let full = self.at_bottom(open);
        let excess = self.excess(weak, open, full, self.path.state(full)?);
        if excess <= 0.0 {
            rec.note(|| "The hole below the weak point may fill with gas: it sets no limit.".into());
            return Some(Err(Allowed::Everything(open)));
        }
        Some(Ok(Filled { open, excess }))
    }

    fn at_shut_in<R: Recorder>(&self, rec: &mut R, weak: WeakPoint, filled: &Filled) -> Option<f64> {
        self.solve(rec, weak, filled, &|volume| self.at_bottom(volume)).map(|found| found.volume)
    }

    fn at_weak_point<R: Recorder>(&self, rec: &mut R, weak: WeakPoint, filled: &Filled) -> Option<Found> {
        let moved = self.solve(rec, weak, filled, &|volume| self.carried(filled.open, volume))?;
        self.brought_back(rec, self.carried(filled.open, moved.volume), moved.state.amount)
    }

    /// A bubble whose top is at the place with so much annulus below it. Mud below the gas: the bubble's own bottom pressure is what
    /// the mud leaves of the formation pressure.
    fn carried(&self, open: f64, volume: f64) -> Bubble {
        let below = open - volume;
        let mud = self.mud_weight * self.path.gravity * self.path.annulus.height(below);
        Bubble { below, volume, bottom_pressure: self.formation_pressure - mud }
    }

    fn at_bottom(&self, volume: f64) -> Bubble {
        Bubble { below: 0.0, volume, bottom_pressure: self.formation_pressure }
    }

    /// How far mud alone would bring the weak point above its limit. [Pa]
    fn mud_alone(&self, weak: WeakPoint) -> f64 {
        let height = (self.path.annulus.bottom() - weak.vertical_depth).max(0.0);
        self.formation_pressure - self.mud_weight * self.path.gravity * height - weak.allowed_pressure
    }

    /// The volume of a bubble, placed by its volume, that brings the weak point just to its limit. Pressure
    /// there grows with the volume, because gas takes the place of mud, so the root is the only one. At both ends it is known
    /// beforehand: mud alone, and gas all the way down.
    fn solve<R: Recorder>(&self, rec: &mut R, weak: WeakPoint, filled: &Filled, place: &dyn Fn(f64) -> Bubble) -> Option<Found> {
        let mut last = None;
        let mut residual = |volume: f64| {
            let bubble = place(volume);
            last = self.path.state(bubble).map(|state| Found { volume, state });
            last.as_ref().map_or(f64::NAN, |found| self.excess(weak, filled.open, bubble, found.state))
        };
        let near = |residual: f64| settled(residual, SAME_PRESSURE);
        let ends = [(0.0, near(self.mud_alone(weak))), (filled.open, near(filled.excess))];
        let volume = root_of_straight(|volume| near(residual(volume)), ends)?;
        if R::ON {
            self.show(rec, weak, place(volume));
            rec.root(Root {
                equation: "pressure at the weak point = allowed pressure",
                sign: "V",
                meaning: "volume of the gas there",
                kind: Kind::Volume,
                value: volume,
                residual: residual(volume),
                residual_kind: Kind::Pressure,
            });
        }
        self.again(last, volume, place(volume))
    }

    /// What was looked at last, or a bubble anew.
    fn again(&self, last: Option<Found>, volume: f64, bubble: Bubble) -> Option<Found> {
        let same = last.filter(|last| last.volume.to_bits() == volume.to_bits());
        same.or_else(|| Some(Found { volume, state: self.path.state(bubble)? }))
    }

    /// How far a bubble below a weak point, with this volume of annulus below it, brings it above its limit. [Pa]
    fn excess(&self, weak: WeakPoint, open: f64, bubble: Bubble, state: BubbleState) -> f64 {
        let annulus = self.path.annulus;
        let above = annulus.height(open) - annulus.height(bubble.below + bubble.volume);
        state.top_pressure - self.mud_weight * self.path.gravity * above - weak.allowed_pressure
    }

    /// What a bubble with this amount of gas is when it is at the bottom.
    fn brought_back<R: Recorder>(&self, rec: &mut R, bubble: Bubble, amount: f64) -> Option<Found> {
        let mut last = None;
        let mut residual = |volume: f64| {
            last = self.path.state(self.at_bottom(volume)).map(|state| Found { volume, state });
            last.as_ref().map_or(f64::NAN, |found| settled(found.state.amount - amount, SAME_AMOUNT * amount))
        };
        // Denser at the bottom, so it fits into its volume; a hot bottom may ask for a little more.
        let mut ends = [(0.0, -amount), (bubble.volume, residual(bubble.volume))];
        if ends[1].1 < 0.0 {
            let most = (2.0 * bubble.volume).min(self.path.annulus.volume());
            ends = [ends[1], (most, residual(most))];
        }
        let volume = root_of_straight(residual, ends)?;
        if let GasLaw::Real { .. } = self.path.law
            && R::ON
            && volume > 0.0
        {
            let density = self.mean_density(bubble)?;
            rec.take(InfluxVolumeByMass {
                volume: bubble.volume,
                density,
                other_density: self.mean_density(self.at_bottom(volume))?,
            });
        }
        self.again(last, volume, self.at_bottom(volume))
    }

    /// Density of a bubble by its amount, where that is a mass, else by its column. [kg/m³]
    fn mean_density(&self, bubble: Bubble) -> Option<f64> {
        let state = self.path.state(bubble)?;
        match self.path.law {
            GasLaw::Real { .. } => Some(state.amount / bubble.volume),
            GasLaw::BoyleAtTop { .. } | GasLaw::FixedDensity { .. } => self.column_density(bubble),
        }
    }

    /// Density that the pressure difference over the bubble stands for; `None` without height. [kg/m³]
    fn column_density(&self, bubble: Bubble) -> Option<f64> {
        let annulus = self.path.annulus;
        let height = annulus.height(bubble.below + bubble.volume) - annulus.height(bubble.below);
        let fall = bubble.bottom_pressure - self.path.state(bubble)?.top_pressure;
        (height > 0.0).then(|| fall / (self.path.gravity * height))
    }

    /// The height by the formula of the books, with the density that the gas turned out to have.
    fn show<R: Recorder>(&self, rec: &mut R, weak: WeakPoint, bubble: Bubble) {
        self.path.show(rec, bubble);
        let Some(density) = self.column_density(bubble) else { return };
        rec.given("mean density of the gas column", density, Kind::Density);
        let density_difference = self.mud_weight - density;
        if density_difference > 0.0 {
            rec.take(AllowableInfluxHeight {
                allowed_pressure: weak.allowed_pressure,
                formation_pressure: self.formation_pressure,
                mud_weight: self.mud_weight,
                open_height: (self.path.annulus.bottom() - weak.vertical_depth).max(0.0),
                density_difference,
                gravity: self.path.gravity,
            });
        }
        rec.table(
            "annulus that the gas fills, from below",
            &[("vertical depth of its lower end", Kind::Depth), ("height", Kind::Depth), ("volume", Kind::Volume)],
            || {
                let pieces = self.path.annulus.pieces(bubble.below, bubble.below + bubble.volume, f64::INFINITY);
                pieces.map(|piece| vec![piece.vertical_depth, piece.height, piece.volume]).collect()
            },
        );
    }
}

#[cfg(test)]
mod tests;
