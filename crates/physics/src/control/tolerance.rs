//! Kick tolerance: the largest influx that can be shut in and circulated out without breaking a weak point.
//!
//! Single bubble, bottom-hole pressure held at formation pressure, both instants that can govern: the initial
//! shut-in, gas round the collars at the bottom, and the moment when the top of the gas comes to the weak point.
//! The latter is brought back to the bottom by mass, so both are volumes at the bottom. Margins come off the
//! allowed pressure before it is given here. Ask at every depth of the section and for every weak point.

use super::bubble::{Bubble, GasLaw, GasPath, SAME_AMOUNT, SAME_PRESSURE, settled};
use super::gas::GasState;
use super::kick::{AllowableInfluxHeight, InfluxVolumeByMass};
use crate::numerics::{root, root_between};
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
        let at_weak_point = self.at_weak_point(rec, weak, &filled)?;
        Some(KickTolerance { at_shut_in: Allowed::Volume(at_shut_in), at_weak_point: Allowed::Volume(at_weak_point) })
    }

    /// The smaller of both instants alone: half the work of [`KickWell::tolerance`], for sweeps.
    pub fn governing(&self, weak: WeakPoint) -> Option<Allowed> {
        let filled = match self.filled(&mut Off, weak)? {
            Ok(filled) => filled,
            Err(all) => return Some(all),
        };
        let at_weak_point = self.at_weak_point(&mut Off, weak, &filled)?;
        // What the weak point lets pass is small enough for the shut-in as well, or the shut-in governs.
        if self.excess(weak, filled.open, self.at_bottom(at_weak_point))? <= 0.0 {
            return Some(Allowed::Volume(at_weak_point));
        }
        self.at_shut_in(&mut Off, weak, &filled).map(Allowed::Volume)
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
        let excess = self.excess(weak, open, self.at_bottom(open))?;
        if excess <= 0.0 {
            rec.note(|| "The hole below the weak point may fill with gas: it sets no limit.".into());
            return Some(Err(Allowed::Everything(open)));
        }
        Some(Ok(Filled { open, excess }))
    }

    fn at_shut_in<R: Recorder>(&self, rec: &mut R, weak: WeakPoint, filled: &Filled) -> Option<f64> {
        self.solve(rec, weak, filled, &|volume| self.at_bottom(volume))
    }

    fn at_weak_point<R: Recorder>(&self, rec: &mut R, weak: WeakPoint, filled: &Filled) -> Option<f64> {
        // Mud below the gas: the bubble's own bottom pressure is what the mud leaves of the formation pressure.
        let carried = |volume: f64| {
            let below = filled.open - volume;
            let mud = self.mud_weight * self.path.gravity * self.path.annulus.height(below);
            Bubble { below, volume, bottom_pressure: self.formation_pressure - mud }
        };
        let moved = self.solve(rec, weak, filled, &carried)?;
        self.brought_back(rec, carried(moved))
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
    fn solve<R: Recorder>(&self, rec: &mut R, weak: WeakPoint, filled: &Filled, place: &dyn Fn(f64) -> Bubble) -> Option<f64> {
        let residual = |volume: f64| self.excess(weak, filled.open, place(volume)).unwrap_or(f64::NAN);
        let near = |residual: f64| settled(residual, SAME_PRESSURE);
        let ends = [(0.0, near(self.mud_alone(weak))), (filled.open, near(filled.excess))];
        let volume = root_between(|volume| near(residual(volume)), ends)?;
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
        Some(volume)
    }

    /// How far a bubble below a weak point, with this volume of annulus below it, brings it above its limit. [Pa]
    fn excess(&self, weak: WeakPoint, open: f64, bubble: Bubble) -> Option<f64> {
        let annulus = self.path.annulus;
        let above = annulus.height(open) - annulus.height(bubble.below + bubble.volume);
        let top_pressure = self.path.state(bubble)?.top_pressure;
        Some(top_pressure - self.mud_weight * self.path.gravity * above - weak.allowed_pressure)
    }

    /// The volume that a bubble has when it is at the bottom.
    fn brought_back<R: Recorder>(&self, rec: &mut R, bubble: Bubble) -> Option<f64> {
        let amount = self.path.state(bubble)?.amount;
        // Denser at the bottom, so it fits into its volume; a hot bottom may ask for a little more.
        let most = (2.0 * bubble.volume).min(self.path.annulus.volume());
        let residual = |volume: f64| {
            self.path.state(self.at_bottom(volume)).map_or(f64::NAN, |state| settled(state.amount - amount, SAME_AMOUNT * amount))
        };
        let volume = root(residual, 0.0, most)?;
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
        Some(volume)
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
mod tests {
    use super::super::annulus::{Annulus, AnnulusSection};
    use super::super::gas::{Gas, ZMethod};
    use super::*;
    use crate::{Line, STANDARD_ATMOSPHERE, STANDARD_GRAVITY, Working};

    fn geotherm(vertical_depth: f64) -> f64 {
        288.15 + 0.03 * vertical_depth
    }

    const METHANE: GasLaw = GasLaw::Real { gas: Gas::METHANE, method: ZMethod::Tabulated, atmosphere: STANDARD_ATMOSPHERE };

    /// Collars, pipe in open hole, pipe in casing: 8 1/2 in hole.
    fn annulus() -> Annulus {
        let section = |capacity, length: f64| AnnulusSection { capacity, length, height: length };
        Annulus::new(vec![section(0.0152, 200.0), section(0.0239, 1300.0), section(0.0255, 2000.0)], 3500.0).unwrap()
    }

    fn well(annulus: &Annulus, law: GasLaw, intensity: f64) -> KickWell<'_> {
        let path = GasPath { annulus, law, temperature: &geotherm, gravity: STANDARD_GRAVITY };
        KickWell { path, mud_weight: 1380.0, formation_pressure: (1380.0 + intensity) * STANDARD_GRAVITY * 3500.0 }
    }

    fn shoe(weight: f64) -> WeakPoint {
        WeakPoint { vertical_depth: 2000.0, allowed_pressure: weight * STANDARD_GRAVITY * 2000.0 }
    }

    #[test]
    fn law_tolerance_falls_with_intensity_and_grows_with_strength() {
        let annulus = annulus();
        let volume = |intensity, weight| {
            well(&annulus, METHANE, intensity).tolerance(&mut Off, shoe(weight)).unwrap().governing().volume()
        };
        assert!(volume(0.0, 1700.0) > volume(60.0, 1700.0));
        assert!(volume(60.0, 1700.0) > volume(120.0, 1700.0));
        assert!(volume(60.0, 1750.0) > volume(60.0, 1700.0));
    }

    #[test]
    fn law_tolerance_vanishes_where_the_kick_tolerance_factor_says() {
        let annulus = annulus();
        // Zero gain: intensity = (D_shoe/D) (EMW - MW).
        let limit = 2000.0 / 3500.0 * (1700.0 - 1380.0);
        let at = |intensity| well(&annulus, METHANE, intensity).tolerance(&mut Off, shoe(1700.0)).unwrap();
        assert_eq!(at(limit + 0.1).governing(), Allowed::Nothing);
        assert!(at(limit - 0.1).governing().volume() < 0.05);
        assert!(at(limit - 0.1).governing().volume() > 0.0);
    }

    #[test]
    fn law_a_strong_shoe_sets_no_limit() {
        let annulus = annulus();
        let tolerance = well(&annulus, METHANE, 60.0).tolerance(&mut Off, shoe(2500.0)).unwrap();
        assert!(
            matches!(tolerance.governing(), Allowed::Everything(volume) if (volume - annulus.volume_below(2000.0)).abs() < 1e-9)
        );
    }

    #[test]
    fn law_both_instants_put_the_weak_point_at_its_limit() {
        let annulus = annulus();
        let well = well(&annulus, METHANE, 60.0);
        let weak = shoe(1700.0);
        let tolerance = well.tolerance(&mut Off, weak).unwrap();
        // Initial shut-in, worked forward.
        let volume = tolerance.at_shut_in.volume();
        let bubble = Bubble { below: 0.0, volume, bottom_pressure: well.formation_pressure };
        let top = well.path.state(bubble).unwrap().top_pressure;
        let above = 1500.0 - annulus.height(volume);
        assert!((top - 1380.0 * STANDARD_GRAVITY * above - weak.allowed_pressure).abs() < 1.0);
        // The influx of the other instant, moved up to the weak point by mass.
        let volume = tolerance.at_weak_point.volume();
        let mass = well.path.state(Bubble { volume, ..bubble }).unwrap().amount;
        let open = annulus.volume_below(2000.0);
        let moved = root(
            |volume| {
                let below = open - volume;
                let bottom_pressure = well.formation_pressure - 1380.0 * STANDARD_GRAVITY * annulus.height(below);
                well.path.state(Bubble { below, volume, bottom_pressure }).unwrap().amount - mass
            },
            0.0,
            open,
        )
        .unwrap();
        let below = open - moved;
        let bottom_pressure = well.formation_pressure - 1380.0 * STANDARD_GRAVITY * annulus.height(below);
        let top = well.path.state(Bubble { below, volume: moved, bottom_pressure }).unwrap().top_pressure;
        assert!((top - weak.allowed_pressure).abs() < 1.0, "{top} {}", weak.allowed_pressure);
    }

    #[test]
    fn law_collars_make_the_initial_shut_in_govern_a_small_influx() {
        let annulus = annulus();
        let near = 2000.0 / 3500.0 * (1700.0 - 1380.0) - 3.0;
        let tolerance = well(&annulus, METHANE, near).tolerance(&mut Off, shoe(1700.0)).unwrap();
        assert!(tolerance.at_shut_in.volume() < tolerance.at_weak_point.volume());
    }

    #[test]
    fn law_governing_alone_is_the_smaller_of_both() {
        let annulus = annulus();
        for step in 0..60 {
            let well = well(&annulus, METHANE, 4.0 * f64::from(step));
            let both = well.tolerance(&mut Off, shoe(1700.0)).unwrap().governing();
            assert_eq!(well.governing(shoe(1700.0)), Some(both), "{step}");
        }
    }

    #[test]
    fn law_what_surely_passes_is_never_more_than_the_tolerance() {
        let annulus = annulus();
        for intensity in [0.0, 30.0, 60.0, 120.0, 180.0] {
            let well = well(&annulus, METHANE, intensity);
            for step in 0..30 {
                let vertical_depth = 2000.0 + 45.0 * f64::from(step);
                for weight in [1550.0, 1650.0, 1750.0] {
                    let weak = WeakPoint { vertical_depth, allowed_pressure: weight * STANDARD_GRAVITY * vertical_depth };
                    let sure = well.lets_pass(weak);
                    match well.governing(weak).unwrap() {
                        Allowed::Nothing => assert!(sure <= 0.0, "{intensity} {vertical_depth} {weight}"),
                        Allowed::Volume(volume) => {
                            assert!(sure <= volume, "{intensity} {vertical_depth} {weight}: {sure} {volume}");
                        }
                        Allowed::Everything(_) => {}
                    }
                }
            }
        }
    }

    #[test]
    fn law_working_holds_the_books_height_and_the_same_figure() {
        let annulus = annulus();
        let well = well(&annulus, METHANE, 60.0);
        let mut working = Working::default();
        let shown = well.tolerance(&mut working, shoe(1700.0)).unwrap();
        assert_eq!(Some(shown), well.tolerance(&mut Off, shoe(1700.0)));
        let step = |slug: &str| {
            let of = |line: &Line| match line {
                Line::Step { record, value, .. } if record.slug == slug => Some(*value),
                _ => None,
            };
            working.lines.iter().find_map(of).unwrap()
        };
        let height = annulus.height(shown.at_shut_in.volume());
        assert!((step("allowable-influx-height") - height).abs() < 1e-3);
        assert!((step("influx-volume-by-mass") - shown.at_weak_point.volume()).abs() < 1e-6);
    }
}
