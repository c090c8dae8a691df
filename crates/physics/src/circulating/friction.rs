//! Friction factors of Fanning: a quarter of Darcy's. From the Reynolds number to the pressure lost per length.

use crate::{Formula, FormulaRecord, formula, numerics};
use std::f64::consts::LN_10;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    Reynolds::RECORD,
    LaminarFactor::RECORD,
    CriticalReynolds::RECORD,
    TransitionalFactor::RECORD,
    PowerLawTurbulentFactor::RECORD,
    BlendedFactor::RECORD,
    DodgeMetzner::RECORD,
    Blasius::RECORD,
    Colebrook::RECORD,
    Chen::RECORD,
    CrossingReynolds::RECORD,
    FrictionGradient::RECORD,
    FrictionLoss::RECORD,
];

formula! {
    /// Reynolds number of a flow with a viscosity.
    pub struct Reynolds;
    slug "reynolds-number";
    equation "Re = ρ v D / μ";
    law Homogeneous;
    source "Reynolds 1883; in field units 928 ρ v d/μ, API RP 13D, 3rd ed. 1995";
    given {
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// mean velocity
        velocity "v" Speed must NON_NEGATIVE;
        /// diameter of a pipe; hole less pipe diameter, or what the method takes for it, of an annulus
        width "D" Diameter must POSITIVE;
        /// viscosity
        viscosity "μ" Viscosity must POSITIVE;
    }
    /// Reynolds number
    gives "Re" Ratio;
    value |f| f.density * f.velocity * f.width / f.viscosity
}

formula! {
    /// Laminar friction factor: 16/Re in a pipe, 24/Re in an annulus whose Reynolds number has hole less pipe diameter.
    pub struct LaminarFactor;
    slug "laminar-friction-factor";
    equation "f = c / Re";
    law Homogeneous;
    source "Hagen-Poiseuille and plane Poiseuille flow; API RP 13D, 3rd ed. 1995";
    given {
        /// Reynolds number
        reynolds "Re" Ratio must POSITIVE;
        /// constant of the cross-section: 16 or 24
        constant "c" Ratio must POSITIVE valid between(16.0, 24.0) default 16.0;
    }
    /// friction factor
    gives "f" Ratio;
    value |f| f.constant / f.reynolds
}

formula! {
    /// Reynolds number up to which flow is laminar; turbulence is full 800 above it.
    pub struct CriticalReynolds;
    slug "critical-reynolds-number";
    equation "Rec = 3470 - 1370 n";
    law Homogeneous;
    source "API RP 13D, 5th ed. 2006 (from memory); Guo & Liu, Applied Drilling Circulation Systems 2011, p. 32";
    given {
        /// flow index; for the generalised method that between 300 and 600 rpm
        flow_index "n" Ratio must between(0.1, 1.5) valid between(0.2, 1.0);
    }
    /// Reynolds number at which flow leaves the laminar regime
    gives "Rec" Ratio;
    value |f| 3470.0 - 1370.0 * f.flow_index
}

formula! {
    /// Friction factor of the regime between laminar and turbulent.
    pub struct TransitionalFactor;
    slug "transitional-friction-factor";
    equation "f = 16 Re / Rec²";
    law Homogeneous;
    source "API RP 13D, 5th ed. 2006 (from memory)";
    given {
        /// Reynolds number
        reynolds "Re" Ratio must NON_NEGATIVE;
        /// critical Reynolds number
        critical_reynolds "Rec" Ratio must POSITIVE;
    }
    /// friction factor
    gives "f" Ratio;
    value |f| 16.0 * f.reynolds / (f.critical_reynolds * f.critical_reynolds)
}

formula! {
    /// Turbulent friction factor of a power-law mud, fitted to Dodge and Metzner.
    ///
    /// Within 4 % of Dodge-Metzner for 5,000 < Re < 100,000 and 0.4 <= n <= 1; 15 to 20 % low at Re = 1,000,000.
    pub struct PowerLawTurbulentFactor;
    slug "power-law-turbulent-friction-factor";
    equation "f = a / Re^b, a = (log n + 3.93)/50, b = (1.75 - log n)/7";
    law Homogeneous;
    source "API RP 13D, 3rd ed. 1995 and 5th ed. 2006";
    given {
        /// generalised Reynolds number
        reynolds "Re" Ratio must POSITIVE valid between(2100.0, 1e5);
        /// flow index; for the generalised method that between 300 and 600 rpm
        flow_index "n" Ratio must between(0.1, 1.5) valid between(0.4, 1.0);
    }
    /// friction factor
    gives "f" Ratio;
    value |f| {
        let log_n = f.flow_index.log10();
        (log_n + 3.93) / 50.0 / f.reynolds.powf((1.75 - log_n) / 7.0)
    }
}

formula! {
    /// Friction factor over all regimes, without a jump.
    pub struct BlendedFactor;
    slug "blended-friction-factor";
    equation "f = (fi^12 + flam^12)^(1/12), fi = (ftrans^-8 + fturb^-8)^(-1/8)";
    law Homogeneous;
    source "API RP 13D, 5th ed. 2006 (from memory)";
    given {
        /// laminar friction factor
        laminar "flam" Ratio must POSITIVE;
        /// transitional friction factor
        transitional "ftrans" Ratio must POSITIVE;
        /// turbulent friction factor
        turbulent "fturb" Ratio must POSITIVE;
    }
    /// friction factor
    gives "f" Ratio;
    value |f| {
        // Each sum is taken relative to its leading term, so that no power overflows.
        let (low, high) = (f.transitional.min(f.turbulent), f.transitional.max(f.turbulent));
        let eighth_root = (1.0 + (low / high).powi(8)).sqrt().sqrt().sqrt();
        let intermediate = low / eighth_root;
        let (less, more) = (intermediate.min(f.laminar), intermediate.max(f.laminar));
        let sum = 1.0 + (less / more).powi(12);
        // Far from the transition the sum is one, and so is its root.
        if sum > 1.0 { more * sum.cbrt().sqrt().sqrt() } else { more }
    }
}

formula! {
    /// Turbulent friction factor of a power-law fluid in a smooth pipe; for an index of 1 that of Prandtl and Karman.
    pub struct DodgeMetzner;
    slug "dodge-metzner-friction-factor";
    equation "1/√f = 4/n^0.75 log(Re f^(1-n/2)) - 0.4/n^1.2";
    law Homogeneous;
    source "Dodge & Metzner, AIChE J. 5 (1959) 189";
    given {
        /// generalised Reynolds number
        reynolds "Re" Ratio must POSITIVE valid between(2900.0, 1e6);
        /// flow index
        flow_index "n" Ratio must between(0.1, 1.5) valid between(0.36, 1.0);
    }
    /// friction factor
    gives "f" Ratio;
    value |f| {
        let root_n = f.flow_index.sqrt();
        let a = 4.0 / (root_n * root_n.sqrt());
        let c = 0.4 / f.flow_index.powf(1.2);
        inverse_root_law(a * f.reynolds.log10() - c, a * (2.0 - f.flow_index) / LN_10)
    }
}

formula! {
    /// Turbulent friction factor in a smooth pipe by the power of a quarter.
    pub struct Blasius;
    slug "blasius-friction-factor";
    equation "f = 0.0791 / Re^0.25";
    law Homogeneous;
    source "Blasius 1913; Guo & Liu, Applied Drilling Circulation Systems 2011, p. 42";
    given {
        /// Reynolds number
        reynolds "Re" Ratio must POSITIVE valid between(2100.0, 1e5);
    }
    /// friction factor
    gives "f" Ratio;
    value |f| 0.0791 / f.reynolds.sqrt().sqrt()
}

formula! {
    /// Turbulent friction factor of a Newtonian fluid in a rough pipe: water, brine.
    pub struct Colebrook;
    slug "colebrook-friction-factor";
    equation "1/√f = -4 log(ε/3.7 + 1.255/(Re √f))";
    law Homogeneous;
    source "Colebrook 1939, in Fanning's factor (2.51/2 = 1.255)";
    given {
        /// Reynolds number
        reynolds "Re" Ratio must POSITIVE valid between(4000.0, 1e8);
        /// roughness over diameter
        relative_roughness "ε" Ratio must between(0.0, 0.1) valid between(0.0, 0.05);
    }
    /// friction factor
    gives "f" Ratio;
    value |f| colebrook(f.reynolds, f.relative_roughness)
}

formula! {
    /// Turbulent friction factor of a Newtonian fluid in a rough pipe, without a root to find.
    pub struct Chen;
    slug "chen-friction-factor";
    equation "1/√f = -4 log(ε/3.7065 - 5.0452/Re log(ε^1.1098/2.8257 + (7.149/Re)^0.8981))";
    law Homogeneous;
    source "Chen, Ind. Eng. Chem. Fundam. 18 (1979) 296; Guo & Liu, Applied Drilling Circulation Systems 2011, p. 38";
    given {
        /// Reynolds number
        reynolds "Re" Ratio must at_least(100.0) valid between(4000.0, 4e8);
        /// roughness over diameter
        relative_roughness "ε" Ratio must between(0.0, 0.1) valid between(0.0, 0.05);
    }
    /// friction factor
    gives "f" Ratio;
    value |f| {
        let inner = (f.relative_roughness.powf(1.1098) / 2.8257 + (7.149 / f.reynolds).powf(0.8981)).log10();
        let x = -4.0 * (f.relative_roughness / 3.7065 - 5.0452 / f.reynolds * inner).log10();
        1.0 / (x * x)
    }
}

formula! {
    /// Reynolds number at which the laminar line of an annulus and a/Re^b cross, by the scheme of Merlo et al.
    ///
    /// It belongs to the Reynolds number of that scheme only.
    pub struct CrossingReynolds;
    slug "crossing-reynolds-number";
    equation "Rec = (c (2n + 1) / (n y))^(1/(1 - z)), y = (log n + 3.93)/50, z = (1.75 - log n)/7";
    law Homogeneous;
    source "Guo & Liu, Applied Drilling Circulation Systems 2011, p. 33-35, after Merlo et al. 1995";
    given {
        /// flow index
        flow_index "n" Ratio must between(0.1, 1.5) valid between(0.2, 1.0);
        /// constant of the annulus
        constant "c" Ratio must POSITIVE default 8.0;
    }
    /// Reynolds number at the crossing
    gives "Rec" Ratio;
    value |f| {
        let (n, log_n) = (f.flow_index, f.flow_index.log10());
        let (y, z) = ((log_n + 3.93) / 50.0, (1.75 - log_n) / 7.0);
        (f.constant * (2.0 * n + 1.0) / (n * y)).powf(1.0 / (1.0 - z))
    }
}

formula! {
    /// Pressure lost to friction per length, from Fanning's friction factor.
    pub struct FrictionGradient;
    slug "friction-gradient";
    equation "G = 2 f ρ v² / D";
    law Homogeneous;
    source "Fanning; in field units f ρ v²/(25.81 D) psi/ft, API RP 13D, 3rd ed. 1995";
    given {
        /// Fanning friction factor
        friction_factor "f" Ratio must NON_NEGATIVE;
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// mean velocity
        velocity "v" Speed must NON_NEGATIVE;
        /// diameter of a pipe; hole less pipe diameter, or what the method takes for it, of an annulus
        width "D" Diameter must POSITIVE;
    }
    /// pressure lost per length
    gives "G" PressureGradient;
    value |f| 2.0 * f.friction_factor * f.density * f.velocity * f.velocity / f.width
}

formula! {
    /// Pressure lost to friction over a length.
    pub struct FrictionLoss;
    slug "friction-loss";
    equation "Δp = G L";
    law Homogeneous;
    source "definition";
    given {
        /// pressure lost per length
        gradient "G" PressureGradient must ANY;
        /// measured length
        length "L" Depth must NON_NEGATIVE;
    }
    /// pressure lost
    gives "Δp" Pressure;
    value |f| f.gradient * f.length
}

/// `1/x²` for the root `x` of `x + s ln x = y`, the form of every smooth law in 1/√f; `s` above nought.
///
/// With x = s w it is w + ln w = z, whose left side rises from minus to plus infinity; e^(z-1) and e^z, or z - ln z
/// and z, hold the root.
fn inverse_root_law(y: f64, s: f64) -> f64 {
    let z = y / s - s.ln();
    let (low, high) = if z <= 1.0 { ((z - 1.0).exp(), z.exp()) } else { ((z - z.ln()).max(1.0), z) };
    let w = numerics::root(|w| w + w.ln() - z, low, high).unwrap_or(high);
    1.0 / (s * w * s * w)
}

/// The root of Colebrook's equation. With x = 1/√f, both sides cross once: x rises, the right side falls in x.
fn colebrook(reynolds: f64, relative_roughness: f64) -> f64 {
    let right = |x: f64| -4.0 * (relative_roughness / 3.7 + 2.51 / 2.0 * x / reynolds).log10();
    // At x = 1e-30 the right side lies above x; at the right side's own value there it lies below.
    let (low, high) = (1e-30, right(1e-30));
    let x = numerics::root(|x| x - right(x), low, high).unwrap_or(low);
    1.0 / (x * x)
}
