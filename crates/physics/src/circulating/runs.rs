//! A run of pipe as the mud meets it: body and tool joints as passages of their own, the pipe lying aside, turning.
//!
//! Losses of body and joints stand in the ratio of their lengths; what the mud loses where it enters and leaves a joint is
//! left out. Eccentricity works on an annulus by [`eccentric`](super::eccentric), between laminar and turbulent flow by a
//! straight line over the transition. Rotation raises or lowers the loss, and no correlation serves without data: a factor.

use super::eccentric::{EccentricLaminarRatio, EccentricTurbulentRatio};
use super::losses::{Flow, LossMethod, Stream, friction};
use super::passage::Passage;
use super::viscometer::MudRheology;
use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    GradientPastJoints::RECORD,
    EccentricTransition::RECORD,
    EccentricGradient::RECORD,
    LossBetweenTemperatures::RECORD,
    VelocityBetweenTemperatures::RECORD,
];

formula! {
    /// Mean loss per length along a run of pipe with joints.
    pub struct GradientPastJoints;
    slug "gradient-past-joints";
    equation "G = (1 - s) Gb + s Gj";
    law Homogeneous;
    source "losses in a row; losses at entry and exit left out";
    given {
        /// loss per length along the body
        body_gradient "Gb" PressureGradient must ANY;
        /// loss per length along the joints
        joint_gradient "Gj" PressureGradient must ANY;
        /// length of a tool joint over that of a joint of pipe
        joint_share "s" Fraction must FRACTION;
    }
    /// mean loss per length
    gives "G" PressureGradient;
    value |f| (1.0 - f.joint_share) * f.body_gradient + f.joint_share * f.joint_gradient
}

formula! {
    /// Ratio of eccentric to concentric loss between laminar and turbulent flow.
    pub struct EccentricTransition;
    slug "eccentric-transition-ratio";
    equation "R = (1 - t) Rl + t Rt";
    law Homogeneous;
    source "straight line over the transition, so that the ratio has no step; no source vouches for it";
    given {
        /// ratio in laminar flow
        laminar_ratio "Rl" Ratio must ANY;
        /// ratio in turbulent flow
        turbulent_ratio "Rt" Ratio must ANY;
        /// how far the flow is from laminar (0) to turbulent (1)
        turbulence "t" Ratio must between(0.0, 1.0);
    }
    /// ratio of the losses
    gives "R" Ratio;
    value |f| (1.0 - f.turbulence) * f.laminar_ratio + f.turbulence * f.turbulent_ratio
}

formula! {
    /// Loss per length of an annulus whose pipe lies aside and turns.
    pub struct EccentricGradient;
    slug "eccentric-gradient";
    equation "G = R fr Gc";
    law Homogeneous;
    source "definitions of both factors";
    given {
        /// loss per length of the concentric annulus
        concentric_gradient "Gc" PressureGradient must ANY;
        /// ratio of eccentric to concentric loss
        eccentric_ratio "R" Ratio must NON_NEGATIVE;
        /// factor for rotation: what a turning pipe loses over what a still one does
        rotation_factor "fr" Ratio must NON_NEGATIVE default 1.0;
    }
    /// loss per length
    gives "G" PressureGradient;
    value |f| f.eccentric_ratio * f.rotation_factor * f.concentric_gradient
}

formula! {
    /// Loss per length at a temperature between two at which the viscometer was read.
    pub struct LossBetweenTemperatures;
    slug "loss-between-temperatures";
    equation "G = (1 - t) G1 + t G2";
    law Homogeneous;
    source "straight line between the losses at two temperatures";
    given {
        /// loss per length at the lower temperature
        lower_gradient "G1" PressureGradient must ANY;
        /// loss per length at the higher temperature
        higher_gradient "G2" PressureGradient must ANY;
        /// how far the mud is from the lower (0) to the higher temperature (1)
        temperature_share "t" Fraction must FRACTION;
    }
    /// loss per length
    gives "G" PressureGradient;
    value |f| (1.0 - f.temperature_share) * f.lower_gradient + f.temperature_share * f.higher_gradient
}

formula! {
    /// Slip velocity, or velocity that cleans, at a temperature between two at which the viscometer was read.
    pub struct VelocityBetweenTemperatures;
    slug "velocity-between-temperatures";
    equation "v = (1 - t) v1 + t v2";
    law Homogeneous;
    source "straight line between the velocities at two temperatures";
    given {
        /// velocity at the lower temperature
        lower_velocity "v1" Speed must ANY;
        /// velocity at the higher temperature
        higher_velocity "v2" Speed must ANY;
        /// how far the mud is from the lower (0) to the higher temperature (1)
        temperature_share "t" Fraction must FRACTION;
    }
    /// velocity
    gives "v" Speed;
    value |f| (1.0 - f.temperature_share) * f.lower_velocity + f.temperature_share * f.higher_velocity
}

/// How the pipe lies in the hole, and what its turning does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lie {
    /// Offset of the centres over the offset at which pipe and wall touch. [-]
    pub eccentricity: f64,
    /// Loss while turning over that without. [-]
    pub rotation_factor: f64,
}

impl Lie {
    /// In the middle of the hole, turning without effect.
    pub const CONCENTRIC: Lie = Lie { eccentricity: 0.0, rotation_factor: 1.0 };

    fn is_plain(&self) -> bool {
        self.eccentricity <= 0.0 && (self.rotation_factor - 1.0).abs() < 1e-12
    }
}

/// A run of like pipe, seen from inside or from outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// Along the body.
    pub body: Passage,
    /// Along the joints, and their share of the length; `None` for pipe without joints of their own.
    pub joints: Option<(Passage, f64)>,
}

impl Run {
    /// Pipe without joints of their own.
    pub const fn plain(body: Passage) -> Run {
        Run { body, joints: None }
    }
}

/// Loss per length along a run of pipe. [Pa/m]
pub fn run_gradient<R: Recorder>(by: (LossMethod, &MudRheology), run: &Run, flow: Flow, lie: &Lie, rec: &mut R) -> f64 {
    let body_gradient = passage_gradient(by, &run.body, flow, lie, rec);
    let Some((joints, joint_share)) = &run.joints else { return body_gradient };
    rec.note(|| "past the tool joints:".to_owned());
    let joint_gradient = passage_gradient(by, joints, flow, lie, rec);
    rec.take(GradientPastJoints { body_gradient, joint_gradient, joint_share: *joint_share })
}

fn passage_gradient<R: Recorder>(
    (method, mud): (LossMethod, &MudRheology),
    passage: &Passage,
    flow: Flow,
    lie: &Lie,
    rec: &mut R,
) -> f64 {
    let velocity = passage.velocity(flow.rate, rec);
    let found = friction(method, mud, passage, Stream { velocity, density: flow.density }, rec);
    let Passage::Annulus { hole_diameter, pipe_diameter } = *passage else { return found.gradient };
    if lie.is_plain() || found.gradient <= 0.0 {
        return found.gradient;
    }
    let Lie { eccentricity, rotation_factor } = *lie;
    let diameter_ratio = (pipe_diameter / hole_diameter).clamp(0.0, 1.0);
    let flow_index = flow_index(method, mud);
    let laminar = EccentricLaminarRatio { eccentricity, diameter_ratio, flow_index };
    let turbulent = EccentricTurbulentRatio { eccentricity, diameter_ratio, flow_index };
    let turbulence = found.turbulence;
    let ratio = if turbulence <= 0.0 {
        rec.take(laminar)
    } else if turbulence >= 1.0 {
        rec.take(turbulent)
    } else {
        let (laminar_ratio, turbulent_ratio) = (rec.take(laminar), rec.take(turbulent));
        rec.take(EccentricTransition { laminar_ratio, turbulent_ratio, turbulence })
    };
    if ratio < 0.0 {
        rec.note(|| "the correlation gives less than nothing here: reckoned as no loss".to_owned());
    }
    let eccentric_ratio = ratio.max(0.0);
    rec.take(EccentricGradient { concentric_gradient: found.gradient, eccentric_ratio, rotation_factor })
}

/// The flow index that the method takes in an annulus, for the ratios.
fn flow_index(method: LossMethod, mud: &MudRheology) -> f64 {
    match method {
        LossMethod::BinghamField => 1.0,
        LossMethod::PowerLaw1995 => mud.annulus_law.flow_index,
        LossMethod::Generalised | LossMethod::Exact => mud.annulus_curve.flow_index,
    }
}
