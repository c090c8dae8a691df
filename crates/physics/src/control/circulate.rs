//! Circulating a gas bubble out at constant bottom-hole pressure: a march over the volume pumped.
//!
//! Driller's method pushes the gas with the old mud; wait and weight sends kill mud after it, behind the old mud
//! that the string still holds. One bubble, gas mass constant until it comes to surface, friction left out. The
//! highest pressures are taken from the whole march: with wait and weight the weak point may be worst when kill
//! mud turns the bit, with collars at shut-in, so no single instant will do.

use super::bubble::{Bubble, SAME_AMOUNT, SAME_PRESSURE, settled};
use super::tolerance::KickWell;
use crate::circulating::column::Hydrostatic;
use crate::numerics::root;
use crate::{Kind, Off, Recorder};

/// What follows the gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum KillMethod {
    /// The old mud, all the way.
    Driller,
    /// Kill mud, after the old mud in the string.
    WaitAndWeight {
        /// Kill mud weight. [kg/m³]
        kill_weight: f64,
        /// Volume of the string and surface lines: old mud that goes ahead. [m³]
        string_volume: f64,
    },
}

/// A circulation to be marched through.
#[derive(Clone, Copy)]
pub struct Circulation<'a> {
    /// The well with its kick.
    pub well: KickWell<'a>,
    /// Volume of the influx at shut-in, at the bottom. [m³]
    pub influx: f64,
    /// What follows it.
    pub method: KillMethod,
    /// Bottom-hole pressure held above formation pressure. [Pa]
    pub overbalance: f64,
    /// Vertical depth of the weak point whose pressure is followed. [m]
    pub weak_depth: f64,
    /// Even steps of the march; the instants that matter come on top.
    pub steps: u32,
}

/// One instant of a circulation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Instant {
    /// Volume pumped since the start. [m³]
    pub pumped: f64,
    /// Vertical depth of the top of the gas. [m]
    pub gas_top: f64,
    /// Vertical depth of the lower end of the gas. [m]
    pub gas_bottom: f64,
    /// Volume of gas in the annulus: the pit gain, without what weighting up adds. [m³]
    pub gas_volume: f64,
    /// Pressure at the choke. [Pa]
    pub choke_pressure: f64,
    /// Pressure at the weak point. [Pa]
    pub weak_pressure: f64,
    /// Pressure at the bottom: what is held, or more where mud alone weighs more. [Pa]
    pub bottom_pressure: f64,
}

/// A whole circulation.
#[derive(Clone, Debug, PartialEq)]
pub struct March {
    /// Its instants in order.
    pub instants: Vec<Instant>,
    /// The one with the highest pressure at the choke.
    pub highest_choke: Instant,
    /// The one with the highest pressure at the weak point.
    pub highest_weak: Instant,
}

/// Where the fluids stand, as volumes of annulus below, and the pressures that follow.
#[derive(Clone, Copy)]
struct Places {
    kill: f64,
    gas: Bubble,
    gas_top_pressure: f64,
    /// By how much the bottom is above the pressure held, because mud alone weighs more. [Pa]
    lift: f64,
}

impl Circulation<'_> {
    /// Marches until the annulus holds nothing but what was pumped last. `None` where the gas leaves the range of its
    /// correlation or the influx is larger than the annulus.
    pub fn march<R: Recorder>(&self, rec: &mut R) -> Option<March> {
        let total = self.well.path.annulus.volume();
        let end = total + self.ahead().unwrap_or(0.0);
        let mut grid: Vec<f64> = (0..=self.steps).map(|step| end * f64::from(step) / f64::from(self.steps.max(1))).collect();
        grid.extend(self.ahead());
        grid.push(self.well.path.annulus.volume_below(self.weak_depth));
        grid.extend(self.pumped_when_top_at(self.weak_depth));
        grid.extend(self.pumped_when_top_at(self.well.path.annulus.vertical_depth(total)));
        // Gas is tallest where it is about to leave a narrow stretch.
        for place in self.well.path.annulus.changes() {
            grid.push(place);
            grid.extend(self.pumped_when_top_at(self.well.path.annulus.vertical_depth(place)));
        }
        grid.sort_by(f64::total_cmp);
        grid.dedup_by(|a, b| (*a - *b).abs() <= 1e-12 * end);
        let instants = grid.iter().map(|pumped| self.instant(&mut Off, *pumped)).collect::<Option<Vec<_>>>()?;
        let highest = |pressure: fn(&Instant) -> f64| {
            // The first of equals, so that a long level stretch is named by its beginning.
            instants.iter().copied().reduce(|best, next| if pressure(&next) > pressure(&best) { next } else { best })
        };
        let highest_choke = highest(|instant| instant.choke_pressure)?;
        let highest_weak = highest(|instant| instant.weak_pressure)?;
        if R::ON {
            for (title, pumped) in [
                ("at the start", 0.0),
                ("highest pressure at the choke", highest_choke.pumped),
                ("highest pressure at the weak point", highest_weak.pumped),
                ("at the end", end),
            ] {
                rec.heading(title);
                self.instant(rec, pumped)?;
            }
        }
        rec.table(
            "the march",
            &[
                ("pumped", Kind::Volume),
                ("top of the gas, vertical", Kind::Depth),
                ("lower end of the gas, vertical", Kind::Depth),
                ("gas in the annulus", Kind::Volume),
                ("choke", Kind::Pressure),
                ("weak point", Kind::Pressure),
            ],
            || {
                let row = |i: &Instant| vec![i.pumped, i.gas_top, i.gas_bottom, i.gas_volume, i.choke_pressure, i.weak_pressure];
                instants.iter().map(row).collect()
            },
        );
        Some(March { instants, highest_choke, highest_weak })
    }

    /// The instant after a volume pumped.
    pub fn instant<R: Recorder>(&self, rec: &mut R, pumped: f64) -> Option<Instant> {
        let annulus = self.well.path.annulus;
        let places = self.places(pumped)?;
        let Places { gas, gas_top_pressure, lift, .. } = places;
        if R::ON {
            self.show_below(rec, &places);
            rec.note(|| "The pressure falls through the gas by its own weight, integrated.".into());
        }
        let above = rec.take(self.column(self.well.mud_weight, self.height_above(gas)));
        Some(Instant {
            pumped,
            gas_top: annulus.vertical_depth(gas.below + gas.volume),
            gas_bottom: annulus.vertical_depth(gas.below),
            gas_volume: gas.volume,
            choke_pressure: if lift > 0.0 { 0.0 } else { gas_top_pressure - above },
            weak_pressure: self.pressure_at(&places, annulus.volume_below(self.weak_depth))?,
            bottom_pressure: self.held() + lift,
        })
    }

    /// Pressures at several vertical depths after a volume pumped. [Pa]
    pub fn pressures_at(&self, pumped: f64, vertical_depths: &[f64]) -> Option<Vec<f64>> {
        let places = self.places(pumped)?;
        let annulus = self.well.path.annulus;
        vertical_depths.iter().map(|depth| self.pressure_at(&places, annulus.volume_below(*depth))).collect()
    }

    /// Volume pumped when the top of the gas comes to a vertical depth; `None` when it is above already.
    pub fn pumped_when_top_at(&self, vertical_depth: f64) -> Option<f64> {
        let annulus = self.well.path.annulus;
        let place = annulus.volume_below(vertical_depth);
        let amount = self.amount()?;
        // The gas that would reach from here up to the place: too much below, too little above.
        let residual = |pumped: f64| {
            let gas = Bubble { below: pumped, volume: place - pumped, bottom_pressure: self.pressure_below_gas(pumped) };
            self.well.path.state(gas).map_or(f64::NAN, |state| settled(state.amount - amount, SAME_AMOUNT * amount))
        };
        root(residual, 0.0, place)
    }

    fn held(&self) -> f64 {
        self.well.formation_pressure + self.overbalance
    }

    /// Old mud that goes ahead of the kill mud. [m³]
    fn ahead(&self) -> Option<f64> {
        match self.method {
            KillMethod::Driller => None,
            KillMethod::WaitAndWeight { string_volume, .. } => Some(string_volume),
        }
    }

    /// Weight of the mud that is pumped last, and how much of it is in the annulus. [kg/m³, m³]
    fn kill_mud(&self, pumped: f64) -> (f64, f64) {
        match self.method {
            KillMethod::Driller => (self.well.mud_weight, 0.0),
            KillMethod::WaitAndWeight { kill_weight, string_volume } => (kill_weight, (pumped - string_volume).max(0.0)),
        }
    }

    fn amount(&self) -> Option<f64> {
        let gas = Bubble { below: 0.0, volume: self.influx, bottom_pressure: self.well.formation_pressure };
        self.well.path.state(gas).map(|state| state.amount)
    }

    fn column(&self, density: f64, height: f64) -> Hydrostatic {
        Hydrostatic { density, vertical_depth: height, gravity: self.well.path.gravity }
    }

    /// Pressure under the gas after a volume pumped. [Pa]
    fn pressure_below_gas(&self, pumped: f64) -> f64 {
        let annulus = self.well.path.annulus;
        let (kill_weight, kill) = self.kill_mud(pumped);
        let (kill_height, height) = (annulus.height(kill), annulus.height(pumped));
        let mud = kill_weight * kill_height + self.well.mud_weight * (height - kill_height);
        self.held() - mud * self.well.path.gravity
    }

    /// Where everything stands. Mud that weighs more than what is held leaves nothing for the choke: then the
    /// choke stands open and the bottom is lifted until the pressure there is nought.
    fn places(&self, pumped: f64) -> Option<Places> {
        let choke = |places: Places| {
            places.gas_top_pressure - self.well.mud_weight * self.well.path.gravity * self.height_above(places.gas)
        };
        let unlifted = self.places_lifted(pumped, 0.0);
        if unlifted.is_some_and(|places| choke(places) >= -SAME_PRESSURE) {
            return unlifted;
        }
        let heaviest = self.well.mud_weight.max(self.kill_mud(pumped).0);
        let most = heaviest * self.well.path.gravity * self.well.path.annulus.height(self.well.path.annulus.volume());
        // Below a vacuum there is no gas: too little lift.
        let residual = |lift: f64| self.places_lifted(pumped, lift).map_or(-most, choke);
        self.places_lifted(pumped, root(residual, 0.0, most)?)
    }

    fn places_lifted(&self, pumped: f64, lift: f64) -> Option<Places> {
        let total = self.well.path.annulus.volume();
        let (_, kill) = self.kill_mud(pumped);
        let below = pumped.min(total);
        let bottom_pressure = self.pressure_below_gas(pumped) + lift;
        let bubble = |volume: f64| Bubble { below, volume, bottom_pressure };
        let amount = self.amount()?;
        let enough = SAME_AMOUNT * amount;
        let fits = |volume: f64| self.well.path.state(bubble(volume)).map(|state| settled(state.amount - amount, enough));
        // Once the gas is at surface, what does not fit has gone through the choke.
        let volume = if amount <= 0.0 {
            0.0
        } else if fits(total - below)? <= 0.0 {
            total - below
        } else {
            root(|volume| fits(volume).unwrap_or(f64::NAN), 0.0, total - below)?
        };
        let gas = bubble(volume);
        Some(Places { kill: kill.min(total), gas, gas_top_pressure: self.well.path.state(gas)?.top_pressure, lift })
    }

    /// Vertical height of mud above the gas. [m]
    fn height_above(&self, gas: Bubble) -> f64 {
        let annulus = self.well.path.annulus;
        annulus.height(annulus.volume()) - annulus.height(gas.below + gas.volume)
    }

    fn pressure_at(&self, places: &Places, place: f64) -> Option<f64> {
        let annulus = self.well.path.annulus;
        let Places { gas, kill, gas_top_pressure, lift } = *places;
        let (kill_weight, _) = self.kill_mud(gas.below);
        let gravity = self.well.path.gravity;
        let height = annulus.height(place);
        if place <= gas.below {
            let kill_height = annulus.height(kill.min(place));
            let mud = kill_weight * kill_height + self.well.mud_weight * (height - kill_height);
            Some(self.held() + lift - mud * gravity)
        } else if place <= gas.below + gas.volume {
            self.well.path.pressure_within(gas, place)
        } else {
            let above_gas = height - annulus.height(gas.below + gas.volume);
            Some(gas_top_pressure - self.well.mud_weight * gravity * above_gas)
        }
    }

    fn show_below<R: Recorder>(&self, rec: &mut R, places: &Places) {
        let annulus = self.well.path.annulus;
        let (kill_weight, _) = self.kill_mud(places.gas.below);
        let kill_height = annulus.height(places.kill.min(places.gas.below));
        if kill_height > 0.0 {
            rec.take(self.column(kill_weight, kill_height));
        }
        rec.take(self.column(self.well.mud_weight, annulus.height(places.gas.below) - kill_height));
    }
}

#[cfg(test)]
mod tests {
    use super::super::annulus::{Annulus, AnnulusSection};
    use super::super::bubble::{GasLaw, GasPath};
    use super::super::bubble_forms::{BubblePressureDriller, BubblePressureWeighted};
    use super::super::gas::{Gas, ZMethod};
    use super::*;
    use crate::{Formula, STANDARD_ATMOSPHERE, STANDARD_GRAVITY};

    fn geotherm(vertical_depth: f64) -> f64 {
        288.15 + 0.03 * vertical_depth
    }

    const METHANE: GasLaw = GasLaw::Real { gas: Gas::METHANE, method: ZMethod::Tabulated, atmosphere: STANDARD_ATMOSPHERE };
    const DEPTH: f64 = 3048.0;
    const CAPACITY: f64 = 0.0634;
    const MUD: f64 = 1150.0;
    const KILL: f64 = 1263.0;

    fn even() -> Annulus {
        Annulus::new(vec![AnnulusSection { capacity: CAPACITY, length: DEPTH, height: DEPTH }], DEPTH).unwrap()
    }

    fn circulation(annulus: &Annulus, law: GasLaw, method: KillMethod, influx: f64) -> Circulation<'_> {
        let path = GasPath { annulus, law, temperature: &geotherm, gravity: STANDARD_GRAVITY };
        let well = KickWell { path, mud_weight: MUD, formation_pressure: KILL * STANDARD_GRAVITY * DEPTH };
        Circulation { well, influx, method, overbalance: 0.0, weak_depth: 1220.0, steps: 100 }
    }

    const WEIGHTED: KillMethod = KillMethod::WaitAndWeight { kill_weight: KILL, string_volume: 28.9 };
    /// Shut-in drill pipe pressure: what the old mud leaves of formation pressure.
    const SIDPP: f64 = (KILL - MUD) * STANDARD_GRAVITY * DEPTH;

    #[test]
    fn law_without_influx_the_choke_reads_sidpp_and_ends_dead() {
        let annulus = even();
        let driller = circulation(&annulus, METHANE, KillMethod::Driller, 0.0).march(&mut Off).unwrap();
        assert!(driller.instants.iter().all(|instant| (instant.choke_pressure - SIDPP).abs() < 1e-3));
        let weighted = circulation(&annulus, METHANE, WEIGHTED, 0.0).march(&mut Off).unwrap();
        assert!((weighted.instants[0].choke_pressure - SIDPP).abs() < 1e-3);
        assert!(weighted.instants.last().unwrap().choke_pressure.abs() < 1e-3);
    }

    #[test]
    fn law_methods_meet_at_the_end() {
        // The driller's first circulation ends with SIDPP on the choke; its second, with kill mud and no gas, ends
        // where wait and weight ends: dead.
        let annulus = even();
        let first = circulation(&annulus, METHANE, KillMethod::Driller, 5.6).march(&mut Off).unwrap();
        let last = first.instants.last().unwrap();
        assert!((last.choke_pressure - SIDPP).abs() < 1e-3 && last.gas_volume.abs() < 1e-9);
        let second = circulation(&annulus, METHANE, WEIGHTED, 0.0).march(&mut Off).unwrap();
        let only = circulation(&annulus, METHANE, WEIGHTED, 5.6).march(&mut Off).unwrap();
        let (a, b) = (second.instants.last().unwrap(), only.instants.last().unwrap());
        assert!((a.choke_pressure - b.choke_pressure).abs() < 1e-3);
        assert!((a.weak_pressure - b.weak_pressure).abs() < 1e-3);
    }

    #[test]
    fn law_gas_mass_is_constant_until_it_is_at_surface() {
        let annulus = even();
        for method in [KillMethod::Driller, WEIGHTED] {
            let circulation = circulation(&annulus, METHANE, method, 5.6);
            let mass = circulation.amount().unwrap();
            let arrival = circulation.pumped_when_top_at(0.0).unwrap();
            for step in 0..=50 {
                let places = circulation.places(arrival * f64::from(step) / 50.0).unwrap();
                let amount = circulation.well.path.state(places.gas).unwrap().amount;
                assert!((amount / mass - 1.0).abs() < 1e-9, "{amount} {mass}");
            }
        }
    }

    #[test]
    fn law_until_kill_mud_turns_the_bit_the_methods_are_one() {
        let annulus = even();
        let driller = circulation(&annulus, METHANE, KillMethod::Driller, 5.6);
        let weighted = circulation(&annulus, METHANE, WEIGHTED, 5.6);
        for pumped in [0.0, 10.0, 20.0, 28.9] {
            let (a, b) = (driller.instant(&mut Off, pumped).unwrap(), weighted.instant(&mut Off, pumped).unwrap());
            assert!((a.choke_pressure - b.choke_pressure).abs() < 1e-6);
        }
    }

    /// Gas fills a narrow stretch above the bottom and is tallest when its top comes to the end of it: the march must not
    /// step over that instant, however few its steps.
    #[test]
    fn law_a_coarse_march_sees_the_peak_of_a_narrow_stretch() {
        let stretch = |capacity, length| AnnulusSection { capacity, length, height: length };
        let annulus = Annulus::new(vec![stretch(0.014, 250.0), stretch(CAPACITY, DEPTH - 250.0)], DEPTH).unwrap();
        for method in [KillMethod::Driller, WEIGHTED] {
            let march = |steps| {
                let circulation = circulation(&annulus, METHANE, method, 2.4);
                Circulation { steps, ..circulation }.march(&mut Off).unwrap()
            };
            let (coarse, fine) = (march(10), march(4000));
            let missed = fine.highest_weak.weak_pressure - coarse.highest_weak.weak_pressure;
            assert!(missed <= 1e-4 * fine.highest_weak.weak_pressure, "{method:?}: {missed}");
        }
    }

    #[test]
    fn law_driller_chokes_highest_with_gas_at_surface_and_above_the_weighted() {
        let annulus = even();
        let driller = circulation(&annulus, METHANE, KillMethod::Driller, 5.6);
        let march = driller.march(&mut Off).unwrap();
        assert!((march.highest_choke.pumped - driller.pumped_when_top_at(0.0).unwrap()).abs() < 1e-9);
        assert!((march.highest_weak.gas_top - 1220.0).abs() < 1e-6);
        let weighted = circulation(&annulus, METHANE, WEIGHTED, 5.6).march(&mut Off).unwrap();
        assert!(weighted.highest_choke.choke_pressure < march.highest_choke.choke_pressure);
        assert!(weighted.highest_weak.weak_pressure < march.highest_weak.weak_pressure);
    }

    #[test]
    fn law_march_meets_the_closed_forms_of_an_even_annulus() {
        let annulus = even();
        let (influx, density, pressure) = (5.6, 240.0, 3.7e7);
        let law = GasLaw::BoyleAtTop { density, pressure };
        let path = GasPath { annulus: &annulus, law, temperature: &geotherm, gravity: STANDARD_GRAVITY };
        let bottom_pressure = KILL * STANDARD_GRAVITY * DEPTH;
        let first = path.state(Bubble { below: 0.0, volume: influx, bottom_pressure }).unwrap().top_pressure;
        let (influx_height, influx_weight) = (influx / CAPACITY, bottom_pressure - first);
        for gas_top in [2500.0, 1800.0, 900.0, 0.0] {
            let height_below = DEPTH - gas_top;
            let driller = circulation(&annulus, law, KillMethod::Driller, influx);
            let instant = driller.instant(&mut Off, driller.pumped_when_top_at(gas_top).unwrap()).unwrap();
            let form = BubblePressureDriller {
                bottom_pressure,
                mud_weight: MUD,
                height_below,
                influx_weight,
                influx_pressure: first,
                influx_height,
                expansion: 1.0,
                gravity: STANDARD_GRAVITY,
            };
            let choke = form.value() - MUD * STANDARD_GRAVITY * gas_top;
            assert!((instant.choke_pressure - choke).abs() < 1.0, "{gas_top}: {} {choke}", instant.choke_pressure);

            let weighted = circulation(&annulus, law, WEIGHTED, influx);
            let instant = weighted.instant(&mut Off, weighted.pumped_when_top_at(gas_top).unwrap()).unwrap();
            if instant.pumped > 28.9 {
                let form = BubblePressureWeighted {
                    bottom_pressure,
                    mud_weight: MUD,
                    kill_weight: KILL,
                    height_below,
                    old_mud_height: 28.9 / CAPACITY,
                    influx_weight,
                    influx_pressure: first,
                    influx_height,
                    expansion: 1.0,
                    gravity: STANDARD_GRAVITY,
                };
                let choke = form.value() - MUD * STANDARD_GRAVITY * gas_top;
                assert!((instant.choke_pressure - choke).abs() < 1.0, "{gas_top}: {} {choke}", instant.choke_pressure);
            }
        }
    }

    #[test]
    fn law_kill_mud_heavier_than_needed_lifts_the_bottom_and_leaves_the_choke_dead() {
        let annulus = even();
        let heavy = KillMethod::WaitAndWeight { kill_weight: KILL + 12.0, string_volume: 28.9 };
        for influx in [0.0, 5.6] {
            let march = circulation(&annulus, METHANE, heavy, influx).march(&mut Off).unwrap();
            assert!(march.instants.iter().all(|instant| instant.choke_pressure >= -SAME_PRESSURE));
            let last = march.instants.last().unwrap();
            assert!(last.choke_pressure.abs() < 1e-9);
            assert!((last.bottom_pressure - (KILL + 12.0) * STANDARD_GRAVITY * DEPTH).abs() < 1e-3);
        }
    }
}
