//! A mud as liquids and solids: its density at any state from its weight at one.

use super::{Liquid, State};
use crate::{Formula, FormulaRecord, Off, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] =
    &[LiquidPhaseDensity::RECORD, SolidsForWeight::RECORD, CompositeDensity::RECORD, VolumeChange::RECORD];

formula! {
    /// Density of oil and water together.
    pub struct LiquidPhaseDensity;
    slug "liquid-phase-density";
    equation "ρl = r ρo + (1 - r) ρw";
    law Homogeneous;
    source "volume balance";
    given {
        /// share of oil in the volume of the liquids
        oil_share "r" Fraction must FRACTION;
        /// density of the oil
        oil_density "ρo" Density must NON_NEGATIVE;
        /// density of the water
        water_density "ρw" Density must NON_NEGATIVE;
    }
    /// density of the liquids
    gives "ρl" Density;
    value |f| f.oil_share * f.oil_density + (1.0 - f.oil_share) * f.water_density
}

/// Densest liquid phase and lightest solids, so that the two never meet. [kg/m³]
const HEAVIEST_LIQUID: f64 = 2400.0;
const LIGHTEST_SOLIDS: f64 = 2450.0;

formula! {
    /// Share of solids that gives a mud its weight.
    pub struct SolidsForWeight;
    slug "solids-for-weight";
    equation "fs = (ρ - ρl) / (ρs - ρl)";
    law Homogeneous;
    source "mass and volume balance";
    given {
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// density of the liquids
        liquid_density "ρl" Density must between(0.0, HEAVIEST_LIQUID);
        /// mean density of the solids
        solids_density "ρs" Density must at_least(LIGHTEST_SOLIDS) valid between(2500.0, 5300.0);
    }
    /// share of solids in the volume; negative when the liquids alone are heavier
    gives "fs" Ratio;
    value |f| (f.density - f.liquid_density) / (f.solids_density - f.liquid_density)
}

formula! {
    /// Weight of a mud at another pressure and temperature, from what its liquids do.
    ///
    /// The mass stays; the volume of each liquid changes as its density does, that of the solids not at all.
    pub struct CompositeDensity;
    slug "composite-density";
    equation "ρ = ρm / (1 + fo (ρo0/ρo - 1) + fw (ρw0/ρw - 1))";
    law Homogeneous;
    source "volume balance; Hoberock, Thomas & Nickens, Oil & Gas J. March 1982 (from memory)";
    given {
        /// mud weight where it was weighed
        density "ρm" Density must NON_NEGATIVE;
        /// share of oil in the mud there
        oil_fraction "fo" Fraction must FRACTION;
        /// density of the oil there
        oil_density_pit "ρo0" Density must POSITIVE;
        /// density of the oil at the new state
        oil_density "ρo" Density must POSITIVE;
        /// share of water or brine in the mud there
        water_fraction "fw" Fraction must FRACTION;
        /// density of the water there
        water_density_pit "ρw0" Density must POSITIVE;
        /// density of the water at the new state
        water_density "ρw" Density must POSITIVE;
    }
    /// mud weight at the new state
    gives "ρ" Density;
    value |f| {
        // The rest is solids; shares that add up to more than one leave none.
        let solids = (1.0 - f.oil_fraction - f.water_fraction).max(0.0);
        let oil = f.oil_fraction * f.oil_density_pit / f.oil_density;
        let water = f.water_fraction * f.water_density_pit / f.water_density;
        f.density / (solids + oil + water)
    }
}

formula! {
    /// Growth of a volume of mud that gets lighter, by heat or by less pressure.
    ///
    /// It looks like a gain in the pits, and goes back when the mud cools.
    pub struct VolumeChange;
    slug "volume-change-with-density";
    equation "ΔV = V (ρ0/ρ - 1)";
    law Homogeneous;
    source "mass balance";
    given {
        /// volume before
        volume "V" Volume must NON_NEGATIVE;
        /// density before
        surface_density "ρ0" Density must NON_NEGATIVE;
        /// density after
        density "ρ" Density must POSITIVE;
    }
    /// growth of the volume
    gives "ΔV" Volume;
    value |f| f.volume * (f.surface_density / f.density - 1.0)
}

/// A liquid of a mud and its share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// The liquid.
    pub liquid: Liquid,
    /// Its share of the volume of mud, where the mud was weighed. [-]
    pub fraction: f64,
}

/// A mud as the retort gives it: liquids, and solids that make up the rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Composition {
    density: f64,
    reference: State,
    oil: Part,
    water: Part,
    /// Densities of oil and water where the mud was weighed; that of the mud for a liquid that is not there. [kg/m³]
    weighed: [f64; 2],
}

impl Composition {
    /// A mud from its weight at a state and the shares of its liquids there.
    ///
    /// `None` when a share is no share, both make more than the whole, or a liquid is not sane. [kg/m³]
    pub fn new(density: f64, reference: State, oil: Part, water: Part) -> Option<Composition> {
        let shares = [oil.fraction, water.fraction];
        let whole = shares.iter().all(|share| (0.0..=1.0).contains(share)) && shares.iter().sum::<f64>() <= 1.0 + 1e-9;
        let sane = density > 0.0 && density.is_finite() && oil.liquid.is_sane() && water.liquid.is_sane();
        if !(whole && sane) {
            return None;
        }
        // A liquid that is not there neither swells nor shrinks.
        let weighed = |part: &Part| if part.fraction > 0.0 { part.liquid.density(reference, &mut Off) } else { density };
        Some(Composition { density, reference, oil, water, weighed: [weighed(&oil), weighed(&water)] })
    }

    /// A mud from its weight, its liquids and the density of its solids: how much solids it holds follows.
    ///
    /// `oil_share` is the share of oil in the liquids: 0.8 for an oil/water ratio of 80/20. `None` when no share of solids gives the weight.
    pub fn from_weight<R: Recorder>(density: f64, reference: State, recipe: &Recipe, rec: &mut R) -> Option<Composition> {
        let Recipe { oil, water, oil_share, solids_density } = *recipe;
        let solids_may = SolidsForWeight::RECORD.symbol("solids_density")?.must.contains(solids_density);
        if !(oil.is_sane() && water.is_sane() && (0.0..=1.0).contains(&oil_share) && solids_may) {
            return None;
        }
        let oil_density = oil.density(reference, rec);
        let water_density = water.density(reference, rec);
        let liquid_density = rec.take(LiquidPhaseDensity { oil_share, oil_density, water_density });
        if liquid_density > HEAVIEST_LIQUID {
            return None;
        }
        let solids = rec.take(SolidsForWeight { density, liquid_density, solids_density });
        if !(0.0..1.0).contains(&solids) {
            return None;
        }
        let share = |liquid: Liquid, part: f64| Part { liquid, fraction: part * (1.0 - solids) };
        Composition::new(density, reference, share(oil, oil_share), share(water, 1.0 - oil_share))
    }

    /// Weight where it was weighed. [kg/m³]
    pub fn reference_density(&self) -> f64 {
        self.density
    }

    /// State at which it was weighed.
    pub fn reference(&self) -> State {
        self.reference
    }

    /// Densities of oil and water where the mud was weighed; that of the mud for a liquid that is not there. [kg/m³]
    pub fn reference_densities(&self) -> [f64; 2] {
        self.weighed
    }

    /// Shares of oil, water and solids in its volume where it was weighed. [-]
    pub fn fractions(&self) -> [f64; 3] {
        let solids = (1.0 - self.oil.fraction - self.water.fraction).max(0.0);
        [self.oil.fraction, self.water.fraction, solids]
    }

    /// Weight at a state. [kg/m³]
    pub fn density<R: Recorder>(&self, state: State, rec: &mut R) -> f64 {
        let [oil_density_pit, water_density_pit] = self.weighed;
        let mut at = |part: &Part| if part.fraction > 0.0 { part.liquid.density(state, rec) } else { self.density };
        let (oil_density, water_density) = (at(&self.oil), at(&self.water));
        rec.take(CompositeDensity {
            density: self.density,
            oil_fraction: self.oil.fraction,
            oil_density_pit,
            oil_density,
            water_fraction: self.water.fraction,
            water_density_pit,
            water_density,
        })
    }
}

/// What a mud is made of, when only its weight is measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Recipe {
    /// The base oil; any liquid when there is none.
    pub oil: Liquid,
    /// The water or brine.
    pub water: Liquid,
    /// Share of oil in the volume of the liquids. [-]
    pub oil_share: f64,
    /// Mean density of the solids. [kg/m³]
    pub solids_density: f64,
}
