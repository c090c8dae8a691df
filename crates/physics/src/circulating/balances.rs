//! Balances of solids, salt and cuttings: what the retort tells of a salt mud, what drilling brings up, and what keeping
//! the solids down costs in new mud. Weighting up, dilution and mixing are in [`mixing`](super::mixing).

use crate::{Formula, FormulaRecord, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    SaltWaterFraction::RECORD,
    SaltWaterDensity::RECORD,
    BrineFraction::RECORD,
    SuspendedSolids::RECORD,
    Concentration::RECORD,
    OilShareOfLiquids::RECORD,
    SackCount::RECORD,
    WettedWeightUpMass::RECORD,
    CuttingsVolume::RECORD,
    CuttingsDensityByBalance::RECORD,
    WasteVolume::RECORD,
    NewMudForSolids::RECORD,
    DilutionFactor::RECORD,
    CostOfMass::RECORD,
    CostOfVolume::RECORD,
];

/// A milligram per litre. [kg/m³]
const MILLIGRAM_PER_LITRE: f64 = 1e-3;
/// Saltiest brine that the correction is asked for: more than dissolves. [kg/m³ of chloride]
const SALTIEST: f64 = 500.0;

formula! {
    /// Share of salt water in a mud, from the share of fresh water that the retort gives back.
    ///
    /// The salt stays in the retort and swells the solids.
    pub struct SaltWaterFraction;
    slug "salt-water-fraction";
    equation "fsw = fw (1 + 5.88e-8 Cl^1.2)";
    law Empirical("mg/L");
    source "Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, p. 92";
    given {
        /// share of water by the retort
        water_fraction "fw" Fraction must FRACTION;
        /// chlorides in the filtrate
        chlorides "Cl" Density must between(0.0, SALTIEST) valid between(0.0, 190.0);
    }
    /// share of salt water
    gives "fsw" Ratio;
    value |f| f.water_fraction * (1.0 + 5.88e-8 * (f.chlorides / MILLIGRAM_PER_LITRE).powf(1.2))
}

formula! {
    /// Density of the salt water in a mud from its chlorides, as sodium chloride.
    pub struct SaltWaterDensity;
    slug "salt-water-density";
    equation "ρsw = 1000 (1 + 1.94e-6 (1000 Cl)^0.95)";
    law Empirical("kg/m³; the book has chlorides in mg/L");
    source "Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, p. 92";
    given {
        /// chlorides in the filtrate
        chlorides "Cl" Density must between(0.0, SALTIEST) valid between(0.0, 190.0);
    }
    /// density of the salt water
    gives "ρsw" Density;
    value |f| 1000.0 * (1.0 + 1.94e-6 * (f.chlorides / MILLIGRAM_PER_LITRE).powf(0.95))
}

formula! {
    /// Share of brine in a mud, from the share of fresh water that the retort gives back.
    ///
    /// The salt of the brine stays in the retort and swells the solids.
    pub struct BrineFraction;
    slug "brine-fraction";
    equation "fb = fw ρw / ((1 - s) ρb)";
    law Homogeneous;
    source "mass balance: the water of the brine is what the retort gives back";
    given {
        /// share of water by the retort
        water_fraction "fw" Fraction must FRACTION;
        /// density of that water
        water_density "ρw" Density must NON_NEGATIVE;
        /// share of salt in the mass of the brine
        salt_fraction "s" Fraction must between(0.0, 0.99) valid between(0.0, 0.7);
        /// density of the brine
        brine_density "ρb" Density must POSITIVE;
    }
    /// share of brine
    gives "fb" Ratio;
    value |f| f.water_fraction * f.water_density / ((1.0 - f.salt_fraction) * f.brine_density)
}

formula! {
    /// Share of solids that hang in the mud, without dissolved salt.
    pub struct SuspendedSolids;
    slug "suspended-solids";
    equation "fs = 1 - fo - fsw";
    law Homogeneous;
    source "volume balance";
    given {
        /// share of oil
        oil_fraction "fo" Fraction must FRACTION;
        /// share of salt water
        salt_water_fraction "fsw" Fraction must FRACTION;
    }
    /// share of suspended solids; negative when the shares do not agree
    gives "fs" Ratio;
    value |f| 1.0 - f.oil_fraction - f.salt_water_fraction
}

formula! {
    /// Mass of a part of the mud per volume of mud.
    ///
    /// For barite 14.7 lb/bbl to one per cent, for light solids 9.1; for a brine put in the share of salt and the density of the brine.
    pub struct Concentration;
    slug "mass-concentration";
    equation "c = f ρ";
    law Homogeneous;
    source "definition";
    given {
        /// share of the part: of the volume with its own density, or of the mass with that of the whole
        share "f" Fraction must FRACTION;
        /// density that goes with the share
        density "ρ" Density must NON_NEGATIVE;
    }
    /// mass per volume of the whole
    gives "c" Density;
    value |f| f.share * f.density
}

formula! {
    /// Share of oil in the liquids of a mud: the first part of the oil/water ratio.
    pub struct OilShareOfLiquids;
    slug "oil-share-of-liquids";
    equation "r = o / (o + w)";
    law Homogeneous;
    source "definition of the oil/water ratio, which counts the liquids only";
    given {
        /// share of oil in the mud
        oil_fraction "o" Fraction must EFFICIENCY;
        /// share of water in the mud
        water_fraction "w" Fraction must FRACTION;
    }
    /// share of oil in the liquids
    gives "r" Fraction;
    value |f| f.oil_fraction / (f.oil_fraction + f.water_fraction)
}

formula! {
    /// Sacks that hold a mass.
    pub struct SackCount;
    slug "sack-count";
    equation "N = m / ms";
    law Homogeneous;
    source "arithmetic; a sack is 100 lb in the US, 25 kg or a tonne elsewhere (common practice)";
    given {
        /// mass
        mass "m" Mass must ANY;
        /// mass of a sack
        sack_mass "ms" Mass must at_least(1e-3) valid between(10.0, 2000.0);
    }
    /// number of sacks
    gives "N" Count;
    value |f| f.mass / f.sack_mass
}

/// Heaviest mud that is mixed, and lightest weighting material that it is mixed with. [kg/m³] (common practice)
const HEAVIEST_MUD: f64 = 2600.0;
const LIGHTEST_WEIGHT: f64 = 2650.0;

formula! {
    /// Weighting material that raises the weight of a mud, when water goes in with it to wet it.
    ///
    /// Some wetting ratios and weights have no answer, since the wet material is itself lighter than the mud wanted: the result is then
    /// absurdly large.
    pub struct WettedWeightUpMass;
    slug "wetted-weight-up-mass";
    equation "m = V ρb (ρ2 - ρ1) / (ρb - ρ2 - v (ρ2 - ρw))";
    law Homogeneous;
    source "mass and volume balance; a gallon of water to a 100-lb sack is common practice, 0.35 of the volume of barite";
    given {
        /// volume before
        volume "V" Volume must NON_NEGATIVE;
        /// mud weight before
        density "ρ1" Density must between(0.0, HEAVIEST_MUD);
        /// mud weight wanted
        wanted_density "ρ2" Density must between(0.0, HEAVIEST_MUD);
        /// density of the weighting material
        weighting_density "ρb" Density must at_least(LIGHTEST_WEIGHT) valid between(2650.0, 5300.0);
        /// volume of water to a volume of weighting material
        wetting_ratio "v" Ratio must NON_NEGATIVE valid between(0.0, 1.0);
        /// density of the water
        water_density "ρw" Density must NON_NEGATIVE;
    }
    /// mass of weighting material
    gives "m" Mass;
    value |f| {
        let gain = f.weighting_density - f.wanted_density - f.wetting_ratio * (f.wanted_density - f.water_density);
        f.volume * f.weighting_density * (f.wanted_density - f.density) / gain.max(1e-6 * f.weighting_density)
    }
}

formula! {
    /// Volume of rock, without its pores, that a length of hole brings up.
    pub struct CuttingsVolume;
    slug "cuttings-volume";
    equation "V = (π/4) D² L (1 - φ)";
    law Homogeneous;
    source "volume of a cylinder; Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, ch. 1";
    given {
        /// diameter of the hole, with what was washed out
        hole_diameter "D" Diameter must NON_NEGATIVE;
        /// length of hole
        length "L" Depth must NON_NEGATIVE;
        /// porosity of the rock
        porosity "φ" Fraction must FRACTION valid between(0.0, 0.4) default 0.0;
    }
    /// volume of grains
    gives "V" Volume;
    value |f| 0.25 * PI * f.hole_diameter * f.hole_diameter * f.length * (1.0 - f.porosity)
}

formula! {
    /// Density of cuttings by the mud balance: cuttings to the weight of water, then water to the brim.
    pub struct CuttingsDensityByBalance;
    slug "cuttings-density-by-balance";
    equation "ρs = ρw² / (2 ρw - ρr)";
    law Homogeneous;
    source "mass and volume balance; Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, p. 41, where 1/(2 - 0.12 Rw)";
    given {
        /// density of the water
        water_density "ρw" Density must POSITIVE default 998.2;
        /// reading with the cup full of cuttings and water
        reading_density "ρr" Density must NON_NEGATIVE;
    }
    /// density of the cuttings; absurdly large when the reading is twice that of water or more
    gives "ρs" Density;
    value |f| f.water_density / (2.0 - f.reading_density / f.water_density).max(1e-6)
}

formula! {
    /// Room that cuttings take in the waste pit, with the mud that clings to them.
    pub struct WasteVolume;
    slug "waste-volume";
    equation "Vw = V (1 + r)";
    law Homogeneous;
    source "volume balance; half to one volume of mud to one of cuttings is common practice";
    given {
        /// volume of cuttings
        volume "V" Volume must NON_NEGATIVE;
        /// volume of mud that goes with a volume of cuttings
        mud_ratio "r" Ratio must NON_NEGATIVE valid between(0.3, 2.0);
    }
    /// volume of waste
    gives "Vw" Volume;
    value |f| f.volume * (1.0 + f.mud_ratio)
}

formula! {
    /// Mud with clean make-up that drilled solids need to stay at a share: the solids are that share of it.
    pub struct NewMudForSolids;
    slug "new-mud-for-solids";
    equation "V = Vs / f";
    law Homogeneous;
    source "volume balance; Drilling Fluids Handbook, calculating dilution quantity";
    given {
        /// volume of solids that stay in the mud
        solids_volume "Vs" Volume must NON_NEGATIVE;
        /// share of drilled solids to be kept
        kept_fraction "f" Fraction must between(1e-6, 1.0) valid between(0.01, 0.15);
    }
    /// volume of new mud, the solids counted in
    gives "V" Volume;
    value |f| f.solids_volume / f.kept_fraction
}

formula! {
    /// New mud made over what would have been needed without taking solids out; one less it is the share of solids taken out.
    pub struct DilutionFactor;
    slug "dilution-factor";
    equation "DF = V / V0";
    law Homogeneous;
    source "API RP 13C (from memory); Drilling Fluids Handbook, calculating dilution quantity";
    given {
        /// volume of new mud made
        new_volume "V" Volume must NON_NEGATIVE;
        /// volume needed if all solids stayed
        full_volume "V0" Volume must at_least(1e-6);
    }
    /// dilution factor
    gives "DF" Ratio;
    value |f| f.new_volume / f.full_volume
}

formula! {
    /// Cost of a mass of material.
    pub struct CostOfMass;
    slug "cost-of-mass";
    equation "C = m p";
    law Homogeneous;
    source "arithmetic";
    given {
        /// mass
        mass "m" Mass must ANY;
        /// price of the mass
        price_per_mass "p" PricePerMass must NON_NEGATIVE;
    }
    /// cost, in the currency of the price
    gives "C" Cost;
    value |f| f.mass * f.price_per_mass
}

formula! {
    /// Cost of a volume of fluid.
    pub struct CostOfVolume;
    slug "cost-of-volume";
    equation "C = V p";
    law Homogeneous;
    source "arithmetic";
    given {
        /// volume
        volume "V" Volume must NON_NEGATIVE;
        /// price of the volume
        price_per_volume "p" PricePerVolume must NON_NEGATIVE;
    }
    /// cost, in the currency of the price
    gives "C" Cost;
    value |f| f.volume * f.price_per_volume
}
