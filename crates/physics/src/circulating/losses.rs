//! Pressure lost to friction in pipe and annulus, by a named method.
//!
//! Which method gave a number belongs to the number: [`LossMethod`]. All take the mean velocity, not the
//! regime, as given; walls are smooth unless the fluid says that it feels their roughness; all losses are positive in the direction of flow. Not here: cuttings beds; tool joints, eccentricity and
//! rotation are in [`runs`](super::runs).

use super::friction::*;
use super::generalised::*;
use super::laminar::{WallStressGradient, wall_stress};
use super::passage::Passage;
use super::viscometer::MudRheology;
use crate::{Kind, Off, Recorder};

/// Named methods for friction losses.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LossMethod {
    /// API RP 13D, generalised method of 2006 and later: Herschel-Bulkley, all regimes blended.
    Generalised,
    /// As the generalised method, with the exact laminar wall stress of pipe and slot, and Dodge-Metzner for turbulence.
    Exact,
    /// API RP 13D of June 1995: power law in two regions, laminar up to a Reynolds number of 2,100.
    PowerLaw1995,
    /// The Bingham method of the field: apparent viscosity for the regime, plastic viscosity for turbulence.
    BinghamField,
}

impl LossMethod {
    /// Every method.
    pub const ALL: [LossMethod; 4] =
        [LossMethod::Generalised, LossMethod::Exact, LossMethod::PowerLaw1995, LossMethod::BinghamField];

    /// In plain words.
    pub const fn name(self) -> &'static str {
        match self {
            LossMethod::Generalised => "API RP 13D generalised (2006 and later)",
            LossMethod::Exact => "exact laminar, Dodge-Metzner turbulent",
            LossMethod::PowerLaw1995 => "API RP 13D power law (June 1995)",
            LossMethod::BinghamField => "Bingham field method",
        }
    }
}

/// The roughest wall that Chen's factor knows, over the width. [-]
const ROUGHEST: f64 = 0.1;

/// Least Reynolds number that Chen's factor takes; friction is laminar long before. [-]
const CHEN_FROM: f64 = 100.0;

/// Turbulent factor of a clear fluid between rough walls, where the fluid counts them; `smooth` else. [-]
fn turbulent_factor<R: Recorder>(
    mud: &MudRheology,
    (width, reynolds): (f64, f64),
    smooth: impl FnOnce(&mut R) -> f64,
    rec: &mut R,
) -> f64 {
    if mud.roughness <= 0.0 {
        return smooth(rec);
    }
    rec.given("roughness of the walls, which this clear fluid feels", mud.roughness, Kind::Roughness);
    let relative_roughness = mud.roughness / width;
    if relative_roughness > ROUGHEST {
        rec.note(|| {
            "caution: rougher for its width than the correlation knows; reckoned as the roughest that it does".to_owned()
        });
    }
    rec.take(Chen { reynolds: reynolds.max(CHEN_FROM), relative_roughness: relative_roughness.min(ROUGHEST) })
}

/// Reynolds number at which the methods without a transition switch to turbulent flow.
const SWITCH: f64 = 2100.0;

/// What flows: mean velocity and density.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stream {
    /// Mean velocity, not below nought. [m/s]
    pub velocity: f64,
    /// Mud weight. [kg/m³]
    pub density: f64,
}

/// How the mud flows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Regime {
    /// No flow, no friction; a gel or a yield stress may still hold.
    Still,
    /// In layers.
    Laminar,
    /// Between the two.
    Transitional,
    /// Fully mixed.
    Turbulent,
}

/// Friction in a passage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Friction {
    /// Pressure lost per measured length. [Pa/m]
    pub gradient: f64,
    /// Reynolds number by the method's own definition. [-]
    pub reynolds: f64,
    /// Regime.
    pub regime: Regime,
    /// How far from laminar (nought) to turbulent (one) the flow is. [-]
    pub turbulence: f64,
}

const STILL: Friction = Friction { gradient: 0.0, reynolds: 0.0, regime: Regime::Still, turbulence: 0.0 };

/// Reynolds numbers by which the transition is said to be over, above the critical one.
const TRANSITION: f64 = 800.0;

/// Pressure lost per length. [Pa/m]
#[inline]
pub fn pressure_gradient<R: Recorder>(
    method: LossMethod,
    mud: &MudRheology,
    passage: &Passage,
    stream: Stream,
    rec: &mut R,
) -> f64 {
    friction(method, mud, passage, stream, rec).gradient
}

/// Friction in a passage: pressure lost per length, Reynolds number and regime.
pub fn friction<R: Recorder>(method: LossMethod, mud: &MudRheology, passage: &Passage, stream: Stream, rec: &mut R) -> Friction {
    if stream.velocity <= 0.0 {
        return STILL;
    }
    match method {
        LossMethod::Generalised => generalised(mud, passage, stream, rec),
        LossMethod::Exact => {
            let stress = exact_stress(mud, passage, stream.velocity, rec);
            blended(mud, passage, stream, Turbulence { wall_stress: stress, implicit: true }, rec)
        }
        LossMethod::PowerLaw1995 => power_law_1995(mud, passage, stream, rec),
        LossMethod::BinghamField => bingham_field(mud, passage, stream, rec),
    }
}

fn exact_stress<R: Recorder>(mud: &MudRheology, passage: &Passage, velocity: f64, rec: &mut R) -> f64 {
    match mud.casson {
        Some(casson) => casson.wall_stress(passage, velocity, rec),
        None => wall_stress(mud.curve_in(passage), passage, velocity, rec),
    }
}

fn generalised<R: Recorder>(mud: &MudRheology, passage: &Passage, stream: Stream, rec: &mut R) -> Friction {
    if mud.casson.is_some() {
        // The method's own stress is one of Herschel-Bulkley muds.
        let wall_stress = exact_stress(mud, passage, stream.velocity, rec);
        return blended(mud, passage, stream, Turbulence { wall_stress, implicit: false }, rec);
    }
    let (geometry, width) = (geometry_factor(passage), passage.width());
    let curve = mud.curve_in(passage);
    let flow_index = curve.flow_index;
    let shear_rate = rec.take(WallShearRate { velocity: stream.velocity, width, flow_index, geometry });
    let (yield_stress, consistency) = (curve.yield_stress, curve.consistency);
    let wall_stress = rec.take(GeneralisedWallStress { yield_stress, consistency, flow_index, shear_rate, geometry });
    blended(mud, passage, stream, Turbulence { wall_stress, implicit: false }, rec)
}

/// What the blended factor starts from.
pub(super) struct Turbulence {
    /// Stress at the wall if the flow were laminar. [Pa]
    pub(super) wall_stress: f64,
    /// Dodge-Metzner instead of the fit to it.
    pub(super) implicit: bool,
}

pub(super) fn blended<R: Recorder>(
    mud: &MudRheology,
    passage: &Passage,
    stream: Stream,
    from: Turbulence,
    rec: &mut R,
) -> Friction {
    let Stream { velocity, density } = stream;
    let (width, wall_stress, flow_index) = (passage.width(), from.wall_stress, mud.turbulent_index);
    if wall_stress <= 0.0 {
        return STILL;
    }
    let reynolds = rec.take(GeneralisedReynolds { density, velocity, wall_stress });
    if reynolds <= 0.0 {
        // No weight, no turbulence: the wall stress alone.
        let gradient = rec.take(WallStressGradient { wall_stress, width });
        return Friction { gradient, reynolds, regime: Regime::Laminar, turbulence: 0.0 };
    }
    let laminar = rec.take(LaminarFactor { reynolds, constant: 16.0 });
    let critical_reynolds = rec.take(CriticalReynolds { flow_index });
    let transitional = rec.take(TransitionalFactor { reynolds, critical_reynolds });
    let smooth = |rec: &mut R| {
        if from.implicit {
            rec.take(DodgeMetzner { reynolds, flow_index })
        } else {
            rec.take(PowerLawTurbulentFactor { reynolds, flow_index })
        }
    };
    let turbulent = turbulent_factor(mud, (width, reynolds), smooth, rec);
    let friction_factor = rec.take(BlendedFactor { laminar, transitional, turbulent });
    let gradient = rec.take(FrictionGradient { friction_factor, density, velocity, width });
    let regime = if reynolds <= critical_reynolds {
        Regime::Laminar
    } else if reynolds <= critical_reynolds + TRANSITION {
        Regime::Transitional
    } else {
        Regime::Turbulent
    };
    let turbulence = ((reynolds - critical_reynolds) / TRANSITION).clamp(0.0, 1.0);
    Friction { gradient, reynolds, regime, turbulence }
}

fn power_law_1995<R: Recorder>(mud: &MudRheology, passage: &Passage, stream: Stream, rec: &mut R) -> Friction {
    let Stream { velocity, density } = stream;
    let (geometry, width) = (geometry_factor(passage), passage.width());
    let (law, constant) = match passage {
        Passage::Bore { .. } => (&mud.pipe_law, 16.0),
        Passage::Annulus { .. } => (&mud.annulus_law, 24.0),
    };
    let (consistency, flow_index) = (law.consistency, law.flow_index);
    let viscosity = rec.take(EffectiveViscosity { consistency, flow_index, velocity, width, geometry });
    if viscosity <= 0.0 || density <= 0.0 {
        return STILL;
    }
    let reynolds = rec.take(Reynolds { density, velocity, width, viscosity });
    let (friction_factor, regime) = if reynolds < SWITCH {
        (rec.take(LaminarFactor { reynolds, constant }), Regime::Laminar)
    } else {
        let smooth = |rec: &mut R| rec.take(PowerLawTurbulentFactor { reynolds, flow_index });
        (turbulent_factor(mud, (width, reynolds), smooth, rec), Regime::Turbulent)
    };
    let gradient = rec.take(FrictionGradient { friction_factor, density, velocity, width });
    Friction { gradient, reynolds, regime, turbulence: if regime == Regime::Turbulent { 1.0 } else { 0.0 } }
}

fn bingham_field<R: Recorder>(mud: &MudRheology, passage: &Passage, stream: Stream, rec: &mut R) -> Friction {
    let Stream { velocity, density } = stream;
    let (geometry, width) = (geometry_factor(passage), passage.width());
    let (plastic_viscosity, yield_point) = (mud.plastic_viscosity, mud.yield_point);
    if plastic_viscosity <= 0.0 {
        return STILL;
    }
    let viscosity = rec.take(BinghamApparentViscosity { plastic_viscosity, yield_point, width, velocity, geometry });
    let equivalent = match passage {
        Passage::Bore { .. } => width,
        Passage::Annulus { .. } => rec.take(SlotEquivalentDiameter { width }),
    };
    let reynolds = rec.take(Reynolds { density, velocity, width: equivalent, viscosity });
    if reynolds < SWITCH {
        let gradient = rec.take(BinghamLaminarGradient { plastic_viscosity, yield_point, velocity, width, geometry });
        return Friction { gradient, reynolds, regime: Regime::Laminar, turbulence: 0.0 };
    }
    let plastic = rec.take(Reynolds { density, velocity, width: equivalent, viscosity: plastic_viscosity });
    let smooth = |rec: &mut R| rec.take(Blasius { reynolds: plastic });
    let friction_factor = turbulent_factor(mud, (equivalent, plastic), smooth, rec);
    let gradient = rec.take(FrictionGradient { friction_factor, density, velocity, width: equivalent });
    Friction { gradient, reynolds, regime: Regime::Turbulent, turbulence: 1.0 }
}

/// A length of one passage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// What the mud flows through.
    pub passage: Passage,
    /// Measured length. [m]
    pub length: f64,
}

const STRETCHES: &[(&str, Kind)] = &[
    ("length", Kind::Depth),
    ("width", Kind::Diameter),
    ("mean velocity", Kind::Speed),
    ("loss per length", Kind::PressureGradient),
    ("loss", Kind::Pressure),
];

/// Pressure lost over stretches in a row, each passed by the whole flow. [Pa]
///
/// The working shows the first, the worst and the last stretch in full and all of them as a table.
pub fn friction_loss<R: Recorder>(method: LossMethod, mud: &MudRheology, stretches: &[Stretch], flow: Flow, rec: &mut R) -> f64 {
    let loss = |stretch: &Stretch| stretch_loss(method, mud, stretch, flow, &mut Off);
    if !R::ON {
        return stretches.iter().map(loss).sum();
    }
    let worst = (0..stretches.len()).max_by(|a, b| loss(&stretches[*a]).total_cmp(&loss(&stretches[*b])));
    let mut total = 0.0;
    for (at, stretch) in stretches.iter().enumerate() {
        let in_full = at == 0 || at + 1 == stretches.len() || Some(at) == worst;
        total += if in_full { stretch_loss(method, mud, stretch, flow, rec) } else { loss(stretch) };
    }
    rec.table("friction losses", STRETCHES, || {
        let row = |stretch: &Stretch| {
            let velocity = stretch.passage.velocity(flow.rate, &mut Off);
            let loss = loss(stretch);
            let gradient = if stretch.length > 0.0 { loss / stretch.length } else { 0.0 };
            vec![stretch.length, stretch.passage.width(), velocity, gradient, loss]
        };
        stretches.iter().map(row).collect()
    });
    rec.note(|| format!("losses by the method: {}", method.name()));
    total
}

/// Flow rate and density of what is pumped.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flow {
    /// Flow rate, not below nought. [m³/s]
    pub rate: f64,
    /// Mud weight. [kg/m³]
    pub density: f64,
}

/// Pressure lost over one stretch. [Pa]
pub fn stretch_loss<R: Recorder>(method: LossMethod, mud: &MudRheology, stretch: &Stretch, flow: Flow, rec: &mut R) -> f64 {
    let velocity = stretch.passage.velocity(flow.rate, rec);
    let gradient = pressure_gradient(method, mud, &stretch.passage, Stream { velocity, density: flow.density }, rec);
    rec.take(FrictionLoss { gradient, length: stretch.length })
}
