//! Surge and swab: pressure from moving the pipe, breaking the gel, starting and stopping, heave.
//!
//! Speeds are magnitudes. Running in, the mud must rise to make room; pulling out, it must fall to fill; either way the
//! wall of the pipe drags mud along with it, and what is dragged must be made up by more return flow: the clinging term
//! is added for surge and for swab alike. The march over a string is in [`trip`](super::trip).

use super::passage::{gap, square_difference};
use crate::{Formula, FormulaRecord, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    ClosedPipeVelocity::RECORD,
    ClingingExact::RECORD,
    ClingingLaminar::RECORD,
    ClingingTurbulent::RECORD,
    EffectiveVelocity::RECORD,
    PeakSpeed::RECORD,
    GelBreakPipe::RECORD,
    GelBreakAnnulus::RECORD,
    GelStrengthAtTime::RECORD,
    InertiaPressure::RECORD,
    WaterHammer::RECORD,
    HeaveSpeed::RECORD,
    HeaveAcceleration::RECORD,
];

/// Clinging constant of the hand method for every annulus. [-] (Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, ch. 5)
pub const FIELD_CLINGING: f64 = 0.45;
/// Peak speed over the mean speed of a stand. [-] (Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, ch. 5)
pub const PEAK_FACTOR: f64 = 1.5;

/// Diameter ratios that the clinging constants are given for.
const LEAST_RATIO: f64 = 0.001;
const LARGEST_RATIO: f64 = 0.999;

formula! {
    /// Mean velocity of the mud that a closed pipe displaces.
    pub struct ClosedPipeVelocity;
    slug "closed-pipe-mud-velocity";
    equation "vm = vp d² / (D² - d²)";
    law Homogeneous;
    source "continuity; Burkhardt 1961";
    given {
        /// speed of the pipe
        pipe_speed "vp" Speed must NON_NEGATIVE;
        /// diameter of the hole or casing
        hole_diameter "D" Diameter must POSITIVE;
        /// outside diameter of the pipe
        pipe_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// mean velocity in the annulus
    gives "vm" Speed;
    value |f| f.pipe_speed * f.pipe_diameter * f.pipe_diameter / square_difference(f.hole_diameter, f.pipe_diameter)
}

formula! {
    /// Clinging constant in laminar flow of a Newtonian fluid: mean velocity of what the wall of the pipe drags along.
    ///
    /// For a power-law mud it is an upper bound, at most 11 % above in a narrow annulus.
    pub struct ClingingExact;
    slug "clinging-constant";
    equation "κ = ((1 - k²)/(2 ln(1/k)) - k²) / (1 - k²)";
    law Homogeneous;
    source "axial Couette flow; Burkhardt, J. Pet. Tech. June 1961";
    given {
        /// pipe diameter over hole diameter
        diameter_ratio "k" Ratio must between(LEAST_RATIO, LARGEST_RATIO);
    }
    /// clinging constant
    gives "κ" Ratio;
    value |f| {
        let square = f.diameter_ratio * f.diameter_ratio;
        ((1.0 - square) / (-2.0 * f.diameter_ratio.ln()) - square) / (1.0 - square)
    }
}

formula! {
    /// Clinging constant in laminar flow, as a line through Burkhardt's chart.
    pub struct ClingingLaminar;
    slug "clinging-constant-laminar-line";
    equation "κ = 0.275 k + 0.25";
    law Homogeneous;
    source "Guo & Liu, Applied Drilling Circulation Systems 2011, eq. 2.81";
    given {
        /// pipe diameter over hole diameter
        diameter_ratio "k" Ratio must between(LEAST_RATIO, LARGEST_RATIO) valid between(0.3, 0.9);
    }
    /// clinging constant
    gives "κ" Ratio;
    value |f| 0.275 * f.diameter_ratio + 0.25
}

formula! {
    /// Clinging constant in turbulent flow, as a line through Burkhardt's chart.
    pub struct ClingingTurbulent;
    slug "clinging-constant-turbulent-line";
    equation "κ = 0.1 k + 0.41";
    law Homogeneous;
    source "Guo & Liu, Applied Drilling Circulation Systems 2011, p. 50";
    given {
        /// pipe diameter over hole diameter
        diameter_ratio "k" Ratio must between(LEAST_RATIO, LARGEST_RATIO) valid between(0.3, 0.9);
    }
    /// clinging constant
    gives "κ" Ratio;
    value |f| 0.1 * f.diameter_ratio + 0.41
}

formula! {
    /// Velocity in a still annulus that would lose as much as the moving pipe makes it lose.
    pub struct EffectiveVelocity;
    slug "effective-annular-velocity";
    equation "ve = vm + κ vp";
    law Homogeneous;
    source "Burkhardt, J. Pet. Tech. June 1961; the clinging term adds, as the exact slot shows";
    given {
        /// mean velocity of the mud past the pipe; negative where it follows the pipe
        mud_velocity "vm" Speed must ANY;
        /// clinging constant
        clinging "κ" Ratio must between(0.0, 1.0) valid between(0.25, 0.5);
        /// speed of the pipe
        pipe_speed "vp" Speed must NON_NEGATIVE;
    }
    /// effective velocity
    gives "ve" Speed;
    value |f| f.mud_velocity + f.clinging * f.pipe_speed
}

formula! {
    /// Peak speed within a stand from the mean speed.
    pub struct PeakSpeed;
    slug "peak-pipe-speed";
    equation "vmax = c vp";
    law Homogeneous;
    source "Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, ch. 5";
    given {
        /// mean speed over a stand
        pipe_speed "vp" Speed must NON_NEGATIVE;
        /// peak over mean
        peak_factor "c" Ratio must ONE_OR_MORE valid between(1.0, 2.0) default PEAK_FACTOR;
    }
    /// peak speed
    gives "vmax" Speed;
    value |f| f.pipe_speed * f.peak_factor
}

formula! {
    /// Pressure that breaks the gel inside a pipe.
    ///
    /// An upper bound on a long string: the gel never breaks everywhere at once unless the pump starts at its full rate.
    pub struct GelBreakPipe;
    slug "gel-break-pressure-pipe";
    equation "Δp = 4 τg L / d";
    law Homogeneous;
    source "force balance; in field units τg L/(300 d) psi";
    given {
        /// gel strength
        gel_strength "τg" ShearStress must NON_NEGATIVE;
        /// measured length
        length "L" Depth must NON_NEGATIVE;
        /// inside diameter
        inner_diameter "d" Diameter must POSITIVE;
    }
    /// pressure to break the gel
    gives "Δp" Pressure;
    value |f| 4.0 * f.gel_strength * f.length / f.inner_diameter
}

formula! {
    /// Pressure that breaks the gel in an annulus.
    pub struct GelBreakAnnulus;
    slug "gel-break-pressure-annulus";
    equation "Δp = 4 τg L / (D - d)";
    law Homogeneous;
    source "force balance; in field units τg L/(300 (D - d)) psi";
    given {
        /// gel strength
        gel_strength "τg" ShearStress must NON_NEGATIVE;
        /// measured length
        length "L" Depth must NON_NEGATIVE;
        /// diameter of the hole or casing
        hole_diameter "D" Diameter must POSITIVE;
        /// outside diameter of the pipe
        pipe_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// pressure to break the gel
    gives "Δp" Pressure;
    value |f| 4.0 * f.gel_strength * f.length / gap(f.hole_diameter, f.pipe_diameter)
}

formula! {
    /// Gel strength after a time at rest, between the readings after ten seconds and ten minutes; never below nought.
    pub struct GelStrengthAtTime;
    slug "gel-strength-at-time";
    equation "τg = τ1 + (τ2 - τ1) log(t/10) / log 60";
    law Empirical("s");
    source "growth with the logarithm of time between the two readings of API RP 13B-1, common practice";
    given {
        /// gel strength after ten seconds
        first "τ1" ShearStress must NON_NEGATIVE;
        /// gel strength after ten minutes
        last "τ2" ShearStress must NON_NEGATIVE;
        /// time at rest
        duration "t" Time must at_least(10.0) valid between(10.0, 600.0);
    }
    /// gel strength then
    gives "τg" ShearStress;
    value |f| (f.first + (f.last - f.first) * (f.duration / 10.0).ln() / 60.0_f64.ln()).max(0.0)
}

formula! {
    /// Pressure from speeding up a closed pipe: the mud in the annulus is sped up the other way.
    pub struct InertiaPressure;
    slug "inertia-pressure-closed-pipe";
    equation "Δp = ρ a L d² / (D² - d²)";
    law Homogeneous;
    source "Newton's second law on the mud in the annulus";
    given {
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// acceleration of the pipe
        pipe_acceleration "a" Acceleration must NON_NEGATIVE;
        /// measured length
        length "L" Depth must NON_NEGATIVE;
        /// diameter of the hole or casing
        hole_diameter "D" Diameter must POSITIVE;
        /// outside diameter of the pipe
        pipe_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// pressure while speeding up
    gives "Δp" Pressure;
    value |f| {
        let ratio = f.pipe_diameter * f.pipe_diameter / square_difference(f.hole_diameter, f.pipe_diameter);
        f.density * f.pipe_acceleration * f.length * ratio
    }
}

/// Bulk modulus of water at 20 °C. [Pa] (IAPWS-95 by CoolProp: density times the square of the speed of sound; solids make mud
/// stiffer by less than they make it heavier)
pub const BULK_MODULUS: f64 = 2.19e9;

formula! {
    /// Largest pressure that a change of velocity makes, however quickly it comes: the liquid gives way.
    pub struct WaterHammer;
    slug "water-hammer";
    equation "Δp = v √(ρ K)";
    law Homogeneous;
    source "N. Joukowsky, Über den hydraulischen Stoss in Wasserleitungsröhren (1900): Δp = ρ c v with c = √(K/ρ), walls rigid";
    given {
        /// change of the mean velocity
        velocity "v" Speed must NON_NEGATIVE;
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// bulk modulus of the liquid
        bulk_modulus "K" Stress must NON_NEGATIVE default BULK_MODULUS;
    }
    /// pressure of the wave
    gives "Δp" Pressure;
    value |f| f.velocity * (f.density * f.bulk_modulus).sqrt()
}

formula! {
    /// Largest speed of a string that heaves with the rig.
    pub struct HeaveSpeed;
    slug "heave-speed";
    equation "vmax = π H / T";
    law Homogeneous;
    source "z = (H/2) sin(2π t/T), differentiated";
    given {
        /// heave from crest to trough
        heave "H" Depth must NON_NEGATIVE;
        /// period
        period "T" Time must POSITIVE;
    }
    /// largest speed
    gives "vmax" Speed;
    value |f| PI * f.heave / f.period
}

formula! {
    /// Largest acceleration of a string that heaves with the rig.
    pub struct HeaveAcceleration;
    slug "heave-acceleration";
    equation "amax = 2 π² H / T²";
    law Homogeneous;
    source "z = (H/2) sin(2π t/T), differentiated twice";
    given {
        /// heave from crest to trough
        heave "H" Depth must NON_NEGATIVE;
        /// period
        period "T" Time must POSITIVE;
    }
    /// largest acceleration
    gives "amax" Acceleration;
    value |f| 2.0 * PI * PI * f.heave / (f.period * f.period)
}

/// Pipe diameter over hole diameter, kept within what the clinging constants are given for. [-]
pub fn diameter_ratio(hole_diameter: f64, pipe_diameter: f64) -> f64 {
    (pipe_diameter / hole_diameter).clamp(LEAST_RATIO, LARGEST_RATIO)
}
