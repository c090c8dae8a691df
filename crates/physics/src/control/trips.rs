//! Trips: how far the mud falls when pipe comes out without filling, what to fill, the slug, and the trip margin.
//!
//! Dry pipe lets the level fall inside and outside alike, wet pipe in the annulus only while its bore is thrown
//! away with it. What is left to fall in is written as the free capacity, so it can never be negative.

use crate::field::{INCH, POUND, POUND_PER_GALLON};
use crate::{Formula, FormulaRecord, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <PulledVolume as Formula>::RECORD,
    <PressureDropDry as Formula>::RECORD,
    <PressureDropWet as Formula>::RECORD,
    <StandsBeforeFill as Formula>::RECORD,
    <LossOfLevel as Formula>::RECORD,
    <SlugDryLength as Formula>::RECORD,
    <SlugGain as Formula>::RECORD,
    <SlugPressureGain as Formula>::RECORD,
    <TripMarginFromYield as Formula>::RECORD,
];

formula! {
    /// Volume that stands of pipe leave behind in the hole: steel alone when pulled dry, bore as well when wet.
    pub struct PulledVolume;
    slug "pulled-volume";
    equation "V = n L (d + c)";
    law Homogeneous;
    source "definition of displacement and capacity; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 1";
    given {
        /// number of stands
        stands "n" Count must NON_NEGATIVE;
        /// length of a stand
        stand "L" Depth must POSITIVE;
        /// displacement of the pipe: its steel
        displacement "d" VolumePerLength must POSITIVE;
        /// capacity of the pipe's bore; nought when pulled dry
        capacity "c" VolumePerLength must NON_NEGATIVE default 0.0;
    }
    /// volume to fill
    gives "V" Volume;
    value |f| f.stands * f.stand * (f.displacement + f.capacity)
}

formula! {
    /// Fall of hydrostatic pressure when dry pipe is pulled without filling.
    ///
    /// The level falls in annulus and pipe together.
    pub struct PressureDropDry;
    slug "pressure-drop-dry-pipe";
    equation "Δp = V MW g / (C_annulus + c)";
    law Homogeneous;
    source "fluid statics; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 1, with C_annulus + c written there as casing capacity less displacement";
    given {
        /// volume pulled: steel
        volume "V" Volume must NON_NEGATIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// capacity between pipe and casing
        annulus_capacity "C_annulus" VolumePerLength must POSITIVE;
        /// capacity of the pipe's bore
        capacity "c" VolumePerLength must NON_NEGATIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// fall of hydrostatic pressure
    gives "Δp" Pressure;
    value |f| f.volume * f.mud_weight * f.gravity / (f.annulus_capacity + f.capacity)
}

formula! {
    /// Fall of hydrostatic pressure when wet pipe is pulled without filling and its mud is thrown away.
    pub struct PressureDropWet;
    slug "pressure-drop-wet-pipe";
    equation "Δp = V MW g / C_annulus";
    law Homogeneous;
    source "fluid statics; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 1, with C_annulus written there as casing capacity less displacement and pipe capacity";
    given {
        /// volume pulled: steel and bore
        volume "V" Volume must NON_NEGATIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// capacity between pipe and casing
        annulus_capacity "C_annulus" VolumePerLength must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// fall of hydrostatic pressure
    gives "Δp" Pressure;
    value |f| f.volume * f.mud_weight * f.gravity / f.annulus_capacity
}

formula! {
    /// Stands that may be pulled before the hole must be filled; round down, and heed the limit on stands as well.
    pub struct StandsBeforeFill;
    slug "stands-before-fill";
    equation "n = Δp_allowed / Δp_stand";
    law Homogeneous;
    source "75 psi or five stands, whichever drops less: 30 CFR 250.456, from memory";
    given {
        /// fall of hydrostatic pressure that is allowed
        allowed "Δp_allowed" Pressure must NON_NEGATIVE;
        /// fall of hydrostatic pressure per stand
        per_stand "Δp_stand" Pressure must POSITIVE;
    }
    /// stands
    gives "n" Count;
    value |f| f.allowed / f.per_stand
}

formula! {
    /// Loss of bottom-hole pressure when mud is lost and not replaced.
    pub struct LossOfLevel;
    slug "pressure-drop-loss-of-level";
    equation "Δp = q t MW g / C";
    law Homogeneous;
    source "fluid statics";
    given {
        /// rate of losses
        loss_rate "q" FlowRate must NON_NEGATIVE;
        /// time without filling
        time "t" Time must NON_NEGATIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// capacity in which the level falls: annulus and pipe
        capacity "C" VolumePerLength must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// loss of bottom-hole pressure
    gives "Δp" Pressure;
    value |f| f.loss_rate * f.time * f.mud_weight * f.gravity / f.capacity
}

formula! {
    /// Length of pipe that a slug leaves dry at the top.
    pub struct SlugDryLength;
    slug "slug-dry-length";
    equation "L_dry = (V_slug / c) (ρ_slug / MW - 1)";
    law Homogeneous;
    source "fluid statics of the U-tube";
    given {
        /// volume of the slug
        slug_volume "V_slug" Volume must NON_NEGATIVE;
        /// capacity of the pipe's bore
        capacity "c" VolumePerLength must POSITIVE;
        /// density of the slug
        slug_weight "ρ_slug" Density must POSITIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
    }
    /// length of dry pipe
    gives "L_dry" Depth;
    value |f| f.slug_volume / f.capacity * (f.slug_weight / f.mud_weight - 1.0)
}

formula! {
    /// Volume that comes back when a slug falls: booked on the trip sheet, or it is taken for an influx.
    pub struct SlugGain;
    slug "slug-gain";
    equation "V = L_dry c";
    law Homogeneous;
    source "Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 2";
    given {
        /// length of dry pipe
        dry_length "L_dry" Depth must NON_NEGATIVE;
        /// capacity of the pipe's bore
        capacity "c" VolumePerLength must POSITIVE;
    }
    /// volume that comes back
    gives "V" Volume;
    value |f| f.dry_length * f.capacity
}

formula! {
    /// Hydrostatic pressure gained where a slug stands in the annulus.
    pub struct SlugPressureGain;
    slug "slug-pressure-gain";
    equation "Δp = (V_slug / C) (ρ_slug - MW) g";
    law Homogeneous;
    source "fluid statics; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 2";
    given {
        /// volume of the slug
        slug_volume "V_slug" Volume must NON_NEGATIVE;
        /// capacity of the annulus
        annulus_capacity "C" VolumePerLength must POSITIVE;
        /// density of the slug
        slug_weight "ρ_slug" Density must POSITIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// hydrostatic pressure gained
    gives "Δp" Pressure;
    value |f| f.slug_volume / f.annulus_capacity * (f.slug_weight - f.mud_weight) * f.gravity
}

formula! {
    /// Trip margin from the yield point: what swabbing takes, at no speed at all.
    ///
    /// Laminar, from the yield point alone; a surge and swab method with speed and rheology replaces it.
    pub struct TripMarginFromYield;
    slug "trip-margin-from-yield-point";
    equation "TM = YP / (11.7 (D_h - D_p))";
    law Empirical("lb/100 ft², in, ppg");
    source "Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4, from memory";
    given {
        /// yield point
        yield_point "YP" ShearStress must NON_NEGATIVE;
        /// hole diameter less pipe diameter
        diameter_difference "D_h - D_p" Diameter must POSITIVE;
    }
    /// trip margin
    gives "TM" Density;
    value |f| {
        let yield_point = f.yield_point / POUND_PER_100_SQUARE_FEET;
        yield_point / (11.7 * (f.diameter_difference / INCH)) * POUND_PER_GALLON
    }
}

/// Pound-force per 100 square feet. [Pa]
const POUND_PER_100_SQUARE_FEET: f64 = POUND * STANDARD_GRAVITY / (100.0 * 144.0 * INCH * INCH);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_a_slug_as_heavy_as_the_mud_does_nothing() {
        let dry = SlugDryLength { slug_volume: 5.0, capacity: 0.009, slug_weight: 1400.0, mud_weight: 1400.0 };
        assert!(dry.value().abs() < 1e-12);
        let gain = SlugPressureGain {
            slug_volume: 5.0,
            annulus_capacity: 0.02,
            slug_weight: 1400.0,
            mud_weight: 1400.0,
            gravity: STANDARD_GRAVITY,
        };
        assert!(gain.value().abs() < 1e-12);
    }

    #[test]
    fn law_the_u_tube_balances_under_a_slug() {
        // Slug of height V/c under a dry length weighs as much as mud of both heights together.
        let (slug_volume, capacity, slug_weight, mud_weight) = (5.0, 0.009, 1580.0, 1460.0);
        let dry = SlugDryLength { slug_volume, capacity, slug_weight, mud_weight }.value();
        let height = slug_volume / capacity;
        assert!((slug_weight * height - mud_weight * (height + dry)).abs() < 1e-6);
    }

    #[test]
    fn law_level_falls_by_the_volume_pulled() {
        // Dry: the level falls by V/(C + c), so the pressure by that times the gradient.
        let (volume, annulus_capacity, capacity) = (0.55, 0.027, 0.0093);
        let drop = PressureDropDry { volume, mud_weight: 1380.0, annulus_capacity, capacity, gravity: 10.0 }.value();
        let level = drop / (1380.0 * 10.0);
        assert!((level * (annulus_capacity + capacity) - volume).abs() < 1e-12);
    }
}
