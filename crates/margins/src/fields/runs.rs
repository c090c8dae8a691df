//! Friction of the pumped mud along each run of pipe of a section: prepared once, since flow, mud and sizes are the section's own.

use super::rheology::{MudAt, around};
use crate::geometry::{self, Annulus, Pipe};
use rigwright_physics::circulating::bit::ToolPressureLoss;
use rigwright_physics::circulating::losses::{Flow, LossMethod};
use rigwright_physics::circulating::passage::Passage;
use rigwright_physics::circulating::runs::{Lie, LossBetweenTemperatures, Run, run_gradient};
use rigwright_physics::circulating::surface::{self, surface_loss};
use rigwright_physics::circulating::viscometer::MudRheology;
use rigwright_physics::{Formula, Off, Recorder};
use rigwright_well::{Fit, Part, PartKind, Section, SurfaceLines, SurfaceWay};

/// Flow exponent of motors and tools: as through an orifice (common practice). [-]
const TOOL_EXPONENT: f64 = 2.0;

/// Losses per length that are known beforehand.
#[derive(Default)]
pub struct SectionLosses {
    known: Vec<Known>,
    /// Flow curves by temperature, coldest first; empty when the mud was read at one temperature only. [K]
    nodes: Vec<(f64, MudRheology)>,
}

/// Losses per length along a run. [Pa/m]
struct Known {
    run: Run,
    /// With the readings that stand first in the file.
    gradient: f64,
    /// By node of temperature.
    by_node: Vec<f64>,
}

impl SectionLosses {
    /// Of a section of a fit, for its own flow and mud.
    pub fn new(fit: &Fit, index: usize, mud: &MudRheology, method: LossMethod, nodes: Vec<(f64, MudRheology)>) -> SectionLosses {
        let section = &fit.well.sections[index];
        let mut losses = SectionLosses { known: Vec::new(), nodes };
        let flow = Flow { rate: section.drilling.flow_rate, density: section.mud.weight };
        let lie = lie(section);
        let gradient = |mud: &MudRheology, run: &Run| run_gradient((method, mud), run, flow, &lie, &mut Off);
        let hole = geometry::hole(fit, index, section.bottom);
        if let SurfaceWay::Pipe { inner_diameter, .. } = fit.rig.surface_lines.way {
            losses.add(Run::plain(Passage::Bore { inner_diameter }), mud, gradient);
        }
        for part in section.string.iter().filter(|part| part.kind != PartKind::Bit) {
            let pipe = Pipe::Part(part);
            let outside = hole.iter().map(|piece| geometry::annulus(piece, Some(&pipe), (piece.top, piece.bottom)));
            let outside = outside.filter(|annulus| annulus.pipe_diameter > 0.0).map(|annulus| past(&annulus));
            for run in outside.chain(inside(part)) {
                losses.add(run, mud, gradient);
            }
        }
        losses
    }

    fn add(&mut self, run: Run, mud: &MudRheology, gradient: impl Fn(&MudRheology, &Run) -> f64) {
        if self.find(&run).is_none() {
            let by_node = self.nodes.iter().map(|(_, node)| gradient(node, &run)).collect();
            self.known.push(Known { run, gradient: gradient(mud, &run), by_node });
        }
    }

    /// Whether the mud was read at more than one temperature.
    pub fn varies(&self) -> bool {
        !self.nodes.is_empty()
    }

    /// Flow curves by temperature, coldest first; empty when the mud was read at one temperature only. [K]
    pub fn nodes(&self) -> &[(f64, MudRheology)] {
        &self.nodes
    }

    /// The mud at a temperature; `None` when it was read at one only. [K]
    pub fn mud_at(&self, temperature: f64) -> Option<MudAt<'_>> {
        MudAt::between(&self.nodes, temperature)
    }

    /// Loss per length along a run at a temperature. [Pa/m], [K]
    pub fn at(&self, run: &Run, temperature: f64) -> Option<f64> {
        let known = self.known.iter().find(|known| known.run == *run)?;
        let (low, high, share) = around(self.nodes.iter().map(|node| node.0), temperature);
        let (lower_gradient, higher_gradient) = (*known.by_node.get(low)?, *known.by_node.get(high)?);
        Some(LossBetweenTemperatures { lower_gradient, higher_gradient, temperature_share: share }.value())
    }

    /// Loss per length along a run. [Pa/m]
    pub fn find(&self, run: &Run) -> Option<f64> {
        self.known.iter().find(|known| known.run == *run).map(|known| known.gradient)
    }
}

/// An annulus as the mud meets it.
pub fn past(annulus: &Annulus) -> Run {
    let hole_diameter = annulus.hole_diameter;
    let body = Passage::Annulus { hole_diameter, pipe_diameter: annulus.pipe_diameter };
    let joints = Passage::Annulus { hole_diameter, pipe_diameter: annulus.joint_diameter };
    Run { body, joints: (annulus.joint_share > 0.0).then_some((joints, annulus.joint_share)) }
}

/// The inside of a part as the mud meets it; `None` for a bit.
pub fn inside(part: &Part) -> Option<Run> {
    let bore = |inner_diameter| Passage::Bore { inner_diameter };
    let joints = Pipe::Part(part).joints().filter(|(joint, _)| joint.inner_diameter > 0.0);
    let joints = joints.map(|(joint, share)| (bore(joint.inner_diameter), share));
    (part.inner_diameter > 0.0).then(|| Run { body: bore(part.inner_diameter), joints })
}

/// Pressure that a motor or tool takes, nought for other parts; `None` where it is not known. [Pa]
///
/// The loss of a motor is the one off bottom: what its torque takes on top is the driller's to add.
pub fn tool_loss<R: Recorder>(part: &Part, flow: Flow, rec: &mut R) -> Option<f64> {
    match (part.tool_loss, part.tool_flow, part.tool_weight) {
        (Some(reference_loss), Some(reference_flow_rate), Some(reference_density)) if reference_flow_rate > 0.0 => {
            let Flow { rate: flow_rate, density } = flow;
            let flow_exponent = TOOL_EXPONENT;
            Some(rec.take(ToolPressureLoss {
                reference_loss,
                reference_density,
                reference_flow_rate,
                density,
                flow_rate,
                flow_exponent,
            }))
        }
        _ if matches!(part.kind, PartKind::Motor | PartKind::Tool) => None,
        _ => Some(0.0),
    }
}

/// How the pipe of a section lies.
pub fn lie(section: &Section) -> Lie {
    Lie { eccentricity: 1.0 - section.lie.standoff, rotation_factor: section.lie.rotation_factor }
}

/// Pressure lost in the surface lines. [Pa]
pub fn surface<R: Recorder>(lines: &SurfaceLines, (method, mud): (LossMethod, &MudRheology), flow: Flow, rec: &mut R) -> f64 {
    match lines.way {
        SurfaceWay::Pipe { length, inner_diameter } => {
            surface_loss(&surface::SurfaceLines::Pipes(&[(length, inner_diameter)]), method, mud, flow, rec)
        }
        SurfaceWay::Combination(combination) => {
            surface_loss(&surface::SurfaceLines::Combination(combination), method, mud, flow, rec)
        }
    }
}
