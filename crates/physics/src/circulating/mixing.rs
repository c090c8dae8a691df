//! Mixing: what to add to make a mud heavier, lighter or oilier, and what a retort tells of its solids.
//!
//! Volumes add up ideally. That holds for muds and solids, not for brine and water (up to 2 % of the volume is lost).
//! The density of the weighting material is always an input: barite is 35 ppg by the trade's 1,470, 34.2 ppg at the
//! least that API 13A allows (from memory), hematite 40, calcium carbonate 22.5.

use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    WeightUpMass::RECORD,
    WeightUpVolume::RECORD,
    WeightUpStart::RECORD,
    DilutionVolume::RECORD,
    MixedDensity::RECORD,
    OilForRatio::RECORD,
    WaterForRatio::RECORD,
    RetortSolidsDensity::RECORD,
    HeavySolids::RECORD,
];

/// Heaviest mud that is mixed: above 21 ppg none is pumped. [kg/m³] (common practice)
const HEAVIEST_MUD: f64 = 2600.0;
/// Lightest weighting material: between the heaviest mud and calcium carbonate. [kg/m³]
const LIGHTEST_WEIGHT: f64 = 2650.0;
/// Smallest difference of densities that mixing is reckoned with, as a share of the denser one. [-]
const LEAST_DIFFERENCE: f64 = 1e-6;

formula! {
    /// Weighting material that raises a volume of mud from one weight to another.
    pub struct WeightUpMass;
    slug "weight-up-mass";
    equation "m = V ρb (ρ2 - ρ1) / (ρb - ρ2)";
    law Homogeneous;
    source "mass and volume balance; Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, p. 81";
    given {
        /// volume before
        volume "V" Volume must NON_NEGATIVE;
        /// mud weight before
        density "ρ1" Density must between(0.0, HEAVIEST_MUD);
        /// mud weight wanted
        wanted_density "ρ2" Density must between(0.0, HEAVIEST_MUD);
        /// density of the weighting material
        weighting_density "ρb" Density must at_least(LIGHTEST_WEIGHT) valid between(2650.0, 5300.0);
    }
    /// mass of weighting material; negative when the mud is to get lighter
    gives "m" Mass;
    value |f| {
        f.volume * f.weighting_density * (f.wanted_density - f.density) / (f.weighting_density - f.wanted_density)
    }
}

formula! {
    /// Volume that weighting up adds.
    pub struct WeightUpVolume;
    slug "weight-up-volume";
    equation "ΔV = V (ρ2 - ρ1) / (ρb - ρ2)";
    law Homogeneous;
    source "mass and volume balance; Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, p. 81";
    given {
        /// volume before
        volume "V" Volume must NON_NEGATIVE;
        /// mud weight before
        density "ρ1" Density must between(0.0, HEAVIEST_MUD);
        /// mud weight wanted
        wanted_density "ρ2" Density must between(0.0, HEAVIEST_MUD);
        /// density of the weighting material
        weighting_density "ρb" Density must at_least(LIGHTEST_WEIGHT) valid between(2650.0, 5300.0);
    }
    /// volume added
    gives "ΔV" Volume;
    value |f| f.volume * (f.wanted_density - f.density) / (f.weighting_density - f.wanted_density)
}

formula! {
    /// Volume to start weighting up with, so that a wanted volume comes out.
    pub struct WeightUpStart;
    slug "weight-up-starting-volume";
    equation "V1 = V2 (ρb - ρ2) / (ρb - ρ1)";
    law Homogeneous;
    source "mass and volume balance; Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, p. 82";
    given {
        /// volume wanted in the end
        wanted_volume "V2" Volume must NON_NEGATIVE;
        /// mud weight before
        density "ρ1" Density must between(0.0, HEAVIEST_MUD);
        /// mud weight wanted
        wanted_density "ρ2" Density must between(0.0, HEAVIEST_MUD);
        /// density of the weighting material
        weighting_density "ρb" Density must at_least(LIGHTEST_WEIGHT) valid between(2650.0, 5300.0);
    }
    /// volume to start with
    gives "V1" Volume;
    value |f| f.wanted_volume * (f.weighting_density - f.wanted_density) / (f.weighting_density - f.density)
}

formula! {
    /// Volume of a lighter fluid that brings a mud down to a weight.
    ///
    /// No volume does it unless the added fluid is lighter than the weight wanted: the result is then absurdly large.
    pub struct DilutionVolume;
    slug "dilution-volume";
    equation "Va = V (ρ1 - ρ2) / (ρ2 - ρa)";
    law Homogeneous;
    source "mass and volume balance; Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, ch. 3";
    given {
        /// volume before
        volume "V" Volume must NON_NEGATIVE;
        /// mud weight before
        density "ρ1" Density must NON_NEGATIVE;
        /// mud weight wanted
        wanted_density "ρ2" Density must POSITIVE;
        /// density of the fluid added
        added_density "ρa" Density must NON_NEGATIVE;
    }
    /// volume to add
    gives "Va" Volume;
    value |f| {
        f.volume * (f.density - f.wanted_density) / (f.wanted_density - f.added_density).max(LEAST_DIFFERENCE * f.wanted_density)
    }
}

formula! {
    /// Weight of two muds mixed.
    pub struct MixedDensity;
    slug "mixed-density";
    equation "ρ = (V1 ρ1 + V2 ρ2) / (V1 + V2)";
    law Homogeneous;
    source "mass and volume balance; Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, ch. 3";
    given {
        /// volume of the first mud
        volume_1 "V1" Volume must POSITIVE;
        /// weight of the first mud
        density_1 "ρ1" Density must NON_NEGATIVE;
        /// volume of the second mud
        volume_2 "V2" Volume must NON_NEGATIVE;
        /// weight of the second mud
        density_2 "ρ2" Density must NON_NEGATIVE;
    }
    /// weight of the mixture
    gives "ρ" Density;
    value |f| (f.volume_1 * f.density_1 + f.volume_2 * f.density_2) / (f.volume_1 + f.volume_2)
}

formula! {
    /// Base oil to add per volume of mud to raise the oil/water ratio, which counts the liquids only.
    pub struct OilForRatio;
    slug "oil-for-ratio";
    equation "x = R w - o";
    law Homogeneous;
    source "volume balance; oil mud calculations, netwasgroup.us";
    given {
        /// share of oil in the mud
        oil_fraction "o" Fraction must FRACTION;
        /// share of water in the mud
        water_fraction "w" Fraction must FRACTION;
        /// parts of oil wanted for a part of water
        wanted_ratio "R" Ratio must NON_NEGATIVE;
    }
    /// volume of oil per volume of mud
    gives "x" Ratio;
    value |f| f.wanted_ratio * f.water_fraction - f.oil_fraction
}

formula! {
    /// Water to add per volume of mud to lower the oil/water ratio, which counts the liquids only.
    pub struct WaterForRatio;
    slug "water-for-ratio";
    equation "x = o/R - w";
    law Homogeneous;
    source "volume balance";
    given {
        /// share of oil in the mud
        oil_fraction "o" Fraction must FRACTION;
        /// share of water in the mud
        water_fraction "w" Fraction must FRACTION;
        /// parts of oil wanted for a part of water
        wanted_ratio "R" Ratio must POSITIVE;
    }
    /// volume of water per volume of mud
    gives "x" Ratio;
    value |f| f.oil_fraction / f.wanted_ratio - f.water_fraction
}

formula! {
    /// Mean density of the solids from the retort and the mud weight.
    ///
    /// The water of an oil mud is brine: put in its density, and take its salt out of the solids first.
    pub struct RetortSolidsDensity;
    slug "retort-solids-density";
    equation "ρs = (ρ - fo ρo - fw ρw) / fs";
    law Homogeneous;
    source "mass balance; retort analysis, drillingformulas.com";
    given {
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// share of oil
        oil_fraction "fo" Fraction must FRACTION;
        /// density of the oil
        oil_density "ρo" Density must NON_NEGATIVE;
        /// share of water
        water_fraction "fw" Fraction must FRACTION;
        /// density of the water
        water_density "ρw" Density must NON_NEGATIVE;
        /// share of solids
        solids_fraction "fs" Fraction must EFFICIENCY;
    }
    /// mean density of the solids
    gives "ρs" Density;
    value |f| {
        (f.density - f.oil_fraction * f.oil_density - f.water_fraction * f.water_density) / f.solids_fraction
    }
}

formula! {
    /// Share of heavy solids in the mud, from the mean density of all solids.
    pub struct HeavySolids;
    slug "heavy-solids-fraction";
    equation "fh = fs (ρs - ρl) / (ρh - ρl)";
    law Homogeneous;
    source "mass balance; light solids 2,600 and barite 4,200 kg/m³ are common practice";
    given {
        /// share of all solids in the mud
        solids_fraction "fs" Fraction must FRACTION;
        /// mean density of the solids
        solids_density "ρs" Density must NON_NEGATIVE;
        /// density of light solids
        light_density "ρl" Density must POSITIVE valid between(2300.0, 2900.0) default 2600.0;
        /// density of the weighting material
        heavy_density "ρh" Density must POSITIVE valid between(4000.0, 5300.0) default 4200.0;
    }
    /// share of heavy solids; outside nought to fs the retort and the mud weight do not agree
    gives "fh" Ratio;
    value |f| f.solids_fraction * (f.solids_density - f.light_density) / (f.heavy_density - f.light_density).max(LEAST_DIFFERENCE * f.heavy_density)
}
