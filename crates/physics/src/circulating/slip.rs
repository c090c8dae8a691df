//! How fast cuttings fall through the mud.
//!
//! Four methods with names. A cutting that is not heavier than the mud does not fall. All of them are fits in field
//! units; none knows that a gel may hold the cutting ([`SuspendedSize`]).

use super::generalised::{BinghamApparentViscosity, EffectiveViscosity};
use super::rheology::ApparentViscosity;
use super::viscometer::MudRheology;
use crate::field::{CENTIPOISE, FOOT, INCH, POUND_PER_100_FEET_SQUARED, POUND_PER_GALLON};
use crate::{Formula, FormulaRecord, Kind, Recorder, Root, STANDARD_GRAVITY, formula, numerics};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    MooreSlip::RECORD,
    ChienSlip::RECORD,
    ApiSlip::RECORD,
    WalkerMayesStress::RECORD,
    WalkerMayesTurbulent::RECORD,
    WalkerMayesLaminar::RECORD,
    SuspendedSize::RECORD,
];

formula! {
    /// Slip velocity by Moore: the smallest of the turbulent, the transitional and the laminar velocity.
    ///
    /// The three have drag 1.5, 22/√Re and 40/Re. Picking one by the particle's Reynolds number may never settle
    /// near 300; the smallest is continuous and changes over at 3.3 and 215.
    pub struct MooreSlip;
    slug "moore-slip-velocity";
    equation "vs = min(1.54 √(d (ρs-ρ)/ρ), 2.90 d (ρs-ρ)^0.667 / (ρ^0.333 μ^0.333), 82.87 d² (ρs-ρ)/μ)";
    law Empirical("ft/s, in, ppg, cP");
    source "Moore 1974, as in Bourgoyne et al., Applied Drilling Engineering 1986, ch. 4 (from memory)";
    given {
        /// diameter of the cutting
        cutting_size "d" Diameter must NON_NEGATIVE;
        /// density of the rock
        cutting_density "ρs" Density must NON_NEGATIVE;
        /// mud weight
        density "ρ" Density must POSITIVE;
        /// apparent viscosity of the mud in the annulus
        viscosity "μ" Viscosity must POSITIVE;
    }
    /// slip velocity
    gives "vs" Speed;
    value |f| {
        let d = f.cutting_size / INCH;
        let rho = f.density / POUND_PER_GALLON;
        let mu = f.viscosity / CENTIPOISE;
        let heavier = (f.cutting_density / POUND_PER_GALLON - rho).max(0.0);
        let turbulent = 1.54 * (d * heavier / rho).sqrt();
        let transitional = 2.90 * d * heavier.powf(0.667) / (rho.powf(0.333) * mu.powf(0.333));
        let laminar = 82.87 * d * d * heavier / mu;
        turbulent.min(transitional).min(laminar) * FOOT
    }
}

formula! {
    /// Slip velocity by Chien's first form.
    ///
    /// It wants the effective viscosity PV + 5 YP d/v; bentonite muds may take the plastic viscosity alone, which overstates
    /// the slip of others.
    pub struct ChienSlip;
    slug "chien-slip-velocity";
    equation "vs = 0.0075 μ/(ρ d) (√(36800 d (ρs/ρ - 1) (ρ d/μ)² + 1) - 1)";
    law Empirical("ft/s, in, ppg, cP");
    source "Chien 1971; Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, ch. 5 (0.45 in ft/min)";
    given {
        /// diameter of the cutting
        cutting_size "d" Diameter must POSITIVE;
        /// density of the rock
        cutting_density "ρs" Density must NON_NEGATIVE;
        /// mud weight
        density "ρ" Density must POSITIVE;
        /// effective viscosity
        viscosity "μ" Viscosity must POSITIVE;
    }
    /// slip velocity
    gives "vs" Speed;
    value |f| quadratic_drag(f.cutting_size, f.cutting_density, f.density, f.viscosity, (0.0075, 36_800.0))
}

formula! {
    /// Slip velocity by API RP 13D of 1995: drag 30/Re + 1.20, that of cuttings with a sphericity of 0.8.
    pub struct ApiSlip;
    slug "api-slip-velocity";
    equation "vs = 0.01344 μ/(ρ d) (√(16465 d (ρs/ρ - 1) (ρ d/μ)² + 1) - 1)";
    law Empirical("ft/s, in, ppg, cP");
    source "API RP 13D, 3rd ed. 1995, equation sheet by H. C. Juvkam-Wold, Texas A&M 2002";
    given {
        /// diameter of the cutting
        cutting_size "d" Diameter must POSITIVE;
        /// density of the rock
        cutting_density "ρs" Density must NON_NEGATIVE;
        /// mud weight
        density "ρ" Density must POSITIVE;
        /// viscosity of the mud at the shear rate vs/d
        viscosity "μ" Viscosity must POSITIVE;
    }
    /// slip velocity
    gives "vs" Speed;
    value |f| quadratic_drag(f.cutting_size, f.cutting_density, f.density, f.viscosity, (0.01344, 16_465.0))
}

formula! {
    /// Stress that a flat cutting puts on the mud, by Walker and Mayes.
    pub struct WalkerMayesStress;
    slug "walker-mayes-stress";
    equation "τs = 7.9 √(h (ρs - ρ))";
    law Empirical("lbf/100 ft², in, ppg");
    source "Walker & Mayes 1975, as in Bourgoyne et al., Applied Drilling Engineering 1986, ch. 4 (from memory)";
    given {
        /// thickness of the cutting
        cutting_thickness "h" Diameter must NON_NEGATIVE;
        /// density of the rock
        cutting_density "ρs" Density must NON_NEGATIVE;
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
    }
    /// stress
    gives "τs" ShearStress;
    value |f| {
        let heavier = (f.cutting_density - f.density).max(0.0) / POUND_PER_GALLON;
        7.9 * (f.cutting_thickness / INCH * heavier).sqrt() * POUND_PER_100_FEET_SQUARED
    }
}

formula! {
    /// Slip velocity of a flat cutting in turbulence, by Walker and Mayes: above a particle Reynolds number of 100.
    pub struct WalkerMayesTurbulent;
    slug "walker-mayes-turbulent-slip";
    equation "vs = 2.19 √(h (ρs - ρ)/ρ)";
    law Empirical("ft/s, in, ppg");
    source "Walker & Mayes 1975, as in Bourgoyne et al., Applied Drilling Engineering 1986, ch. 4 (from memory)";
    given {
        /// thickness of the cutting
        cutting_thickness "h" Diameter must NON_NEGATIVE;
        /// density of the rock
        cutting_density "ρs" Density must NON_NEGATIVE;
        /// mud weight
        density "ρ" Density must POSITIVE;
    }
    /// slip velocity
    gives "vs" Speed;
    value |f| {
        let heavier = (f.cutting_density - f.density).max(0.0) / f.density;
        2.19 * (f.cutting_thickness / INCH * heavier).sqrt() * FOOT
    }
}

formula! {
    /// Slip velocity of a flat cutting in laminar flow, by Walker and Mayes: below a particle Reynolds number of 100.
    pub struct WalkerMayesLaminar;
    slug "walker-mayes-laminar-slip";
    equation "vs = 0.0203 τs √(d γs / √ρ)";
    law Empirical("ft/s, lbf/100 ft², in, ppg");
    source "Walker & Mayes 1975, as in Bourgoyne et al., Applied Drilling Engineering 1986, ch. 4 (from memory)";
    given {
        /// stress of the cutting on the mud
        cutting_stress "τs" ShearStress must NON_NEGATIVE;
        /// width of the cutting
        cutting_size "d" Diameter must NON_NEGATIVE;
        /// shear rate of the mud at that stress
        shear_rate "γs" ShearRate must NON_NEGATIVE;
        /// mud weight
        density "ρ" Density must POSITIVE;
    }
    /// slip velocity
    gives "vs" Speed;
    value |f| {
        let stress = f.cutting_stress / POUND_PER_100_FEET_SQUARED;
        let root_density = (f.density / POUND_PER_GALLON).sqrt();
        0.0203 * stress * (f.cutting_size / INCH * f.shear_rate / root_density).sqrt() * FOOT
    }
}

formula! {
    /// Largest cutting that a gel holds when the mud stands.
    pub struct SuspendedSize;
    slug "suspended-cutting-size";
    equation "d = 6 τg / ((ρs - ρ) g)";
    law Homogeneous;
    source "balance of the immersed weight and stress on the surface of a sphere; 10.4 as a divisor in field units, Bourgoyne et al. (from memory)";
    given {
        /// gel strength
        gel_strength "τg" ShearStress must NON_NEGATIVE;
        /// density of the rock
        cutting_density "ρs" Density must NON_NEGATIVE;
        /// mud weight
        density "ρ" Density must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// diameter of the cutting; absurdly large when it is not heavier than the mud
    gives "d" Diameter;
    value |f| 6.0 * f.gel_strength / ((f.cutting_density - f.density).max(LEAST_DIFFERENCE * f.density) * f.gravity)
}

/// Smallest difference of densities that a suspended size is reckoned with, as a share of the mud weight. [-]
const LEAST_DIFFERENCE: f64 = 1e-6;

/// `a μ/(ρ d) (√(b d (ρs/ρ - 1) (ρ d/μ)² + 1) - 1)` in field units, written so that no digits cancel. [m/s]
fn quadratic_drag(size: f64, cutting_density: f64, density: f64, viscosity: f64, constants: (f64, f64)) -> f64 {
    let (a, b) = constants;
    let d = size / INCH;
    let x = (viscosity / CENTIPOISE) / (density / POUND_PER_GALLON * d);
    let drive = b * d * (cutting_density / density - 1.0).max(0.0);
    // x (√(drive/x² + 1) - 1) = drive / (√(drive + x²) + x)
    a * drive / ((drive + x * x).sqrt() + x) * FOOT
}

/// What falls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cutting {
    /// Diameter, or width of a flat one. [m]
    pub size: f64,
    /// Thickness of a flat one. [m]
    pub thickness: f64,
    /// Density of the rock. [kg/m³]
    pub density: f64,
}

/// Where it falls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rise {
    /// Mean velocity of the mud in the annulus. [m/s]
    pub annular_velocity: f64,
    /// Hole less pipe diameter. [m]
    pub width: f64,
    /// Mud weight. [kg/m³]
    pub density: f64,
}

/// Named methods for the slip velocity.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SlipMethod {
    /// Moore, the smallest of three.
    Moore,
    /// Chien 1971 with the effective viscosity.
    Chien,
    /// API RP 13D of 1995.
    Api1995,
    /// Walker and Mayes, for flat cuttings.
    WalkerMayes,
}

/// Slip velocity of a cutting in rising mud. [m/s]
pub fn slip_velocity<R: Recorder>(method: SlipMethod, mud: &MudRheology, cutting: &Cutting, rise: &Rise, rec: &mut R) -> f64 {
    let Cutting { size: cutting_size, thickness: cutting_thickness, density: cutting_density } = *cutting;
    let Rise { annular_velocity, density, .. } = *rise;
    if cutting_density <= density || annular_velocity <= 0.0 {
        return 0.0;
    }
    match method {
        SlipMethod::Moore => {
            let viscosity = annular_viscosity(mud, rise, rec);
            rec.take(MooreSlip { cutting_size, cutting_density, density, viscosity })
        }
        SlipMethod::Chien => {
            let (plastic_viscosity, yield_point) = (mud.plastic_viscosity, mud.yield_point);
            let viscosity = rec.take(BinghamApparentViscosity {
                plastic_viscosity,
                yield_point,
                width: cutting_size,
                velocity: annular_velocity,
                geometry: 1.0,
            });
            rec.take(ChienSlip { cutting_size, cutting_density, density, viscosity })
        }
        SlipMethod::Api1995 => api_slip(mud, cutting, density, rec),
        SlipMethod::WalkerMayes => {
            let cutting_stress = rec.take(WalkerMayesStress { cutting_thickness, cutting_density, density });
            let turbulent = rec.take(WalkerMayesTurbulent { cutting_thickness, cutting_density, density });
            let shear_rate = mud.annulus_curve.shear_rate(cutting_stress);
            if shear_rate <= 0.0 {
                rec.note(|| "the stress of the cutting stays below the yield stress: it does not fall".to_owned());
                return 0.0;
            }
            let viscosity = rec.take(ApparentViscosity { stress: cutting_stress, shear_rate });
            if density * turbulent * cutting_size / viscosity > 100.0 {
                turbulent
            } else {
                rec.take(WalkerMayesLaminar { cutting_stress, cutting_size, shear_rate, density })
            }
        }
    }
}

/// Viscosity of the mud as it rises, by the power law between 300 and 600 rpm that Moore's method takes. [Pa·s]
///
/// The low readings would make a slowly rising mud far thicker, and let it carry anything at any flow.
pub fn annular_viscosity<R: Recorder>(mud: &MudRheology, rise: &Rise, rec: &mut R) -> f64 {
    let (consistency, flow_index) = (mud.pipe_law.consistency, mud.pipe_law.flow_index);
    let (velocity, width) = (rise.annular_velocity, rise.width);
    rec.take(EffectiveViscosity { consistency, flow_index, velocity, width, geometry: 1.0 })
}

/// The slip velocity at which the mud has the viscosity of its shear rate vs/d.
///
/// With ln vs as the unknown the excess changes sign once: a shear-thinning mud lets the slip grow more slowly than the
/// velocity that causes it. Between a billionth of the turbulent limit and the limit itself.
fn api_slip<R: Recorder>(mud: &MudRheology, cutting: &Cutting, density: f64, rec: &mut R) -> f64 {
    let (cutting_size, cutting_density) = (cutting.size, cutting.density);
    let law = &mud.annulus_law;
    let viscosity = |slip: f64| law.consistency * (slip / cutting_size).powf(law.flow_index - 1.0);
    let of = |viscosity: f64| ApiSlip { cutting_size, cutting_density, density, viscosity };
    let limit = of(1e-12).value();
    let excess = |log: f64| log.exp() - of(viscosity(log.exp()).max(1e-12)).value();
    let low = (limit * 1e-9).ln();
    let Some(log) = numerics::root(excess, low, limit.ln()) else {
        rec.note(|| "the cutting hardly falls".to_owned());
        return 0.0;
    };
    let slip = log.exp();
    rec.root(Root {
        equation: "slip velocity at the viscosity of the shear rate vs/d = vs",
        sign: "vs",
        meaning: "slip velocity",
        kind: Kind::Speed,
        value: slip,
        residual: excess(log),
        residual_kind: Kind::Speed,
    });
    rec.take(of(viscosity(slip)))
}
