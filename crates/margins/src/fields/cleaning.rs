//! The flow that cleans each annulus of a section, prepared once: it depends on mud, sizes and inclination, not on the situation.

use crate::Scene;
use crate::fields::flow::{cutting, passage};
use crate::fields::rheology::{MudAt, mud_at};
use crate::geometry::{self, Annulus};
use rigwright_physics::circulating::cleaning::LARSEN_FROM;
use rigwright_physics::circulating::cleaning_flow::{CleanWhen, Cleaning, cleaning_velocity};
use rigwright_physics::circulating::runs::VelocityBetweenTemperatures;
use rigwright_physics::circulating::slip::SlipMethod;
use rigwright_physics::circulating::viscometer::MudRheology;
use rigwright_physics::{Formula, Off, Recorder};
use rigwright_well::{Fit, PartKind, Section};

/// Inclinations closer than this to the vertical are vertical. [rad]
const UPRIGHT: f64 = 1e-6;

/// Where the most flow is wanted to clean a hole.
#[derive(Clone, Copy, Debug)]
pub struct Wanted {
    /// Flow that cleans there. [m³/s]
    pub flow_rate: f64,
    /// Measured depth. [m]
    pub depth: f64,
    /// Inclination there. [rad]
    pub inclination: f64,
    /// The annulus.
    pub annulus: Annulus,
}

/// The annulus of a situation that wants the most flow at a rate of penetration.
pub fn wanted(scene: &Scene, penetration_rate: f64) -> Option<Wanted> {
    let (section, prepared) = (scene.section(), scene.prepared_flow());
    prepared.mud?;
    let path = &scene.fit().well.path;
    let as_planned = (penetration_rate - section.drilling.penetration_rate).abs() < 1e-12;
    let mut worst: Option<Wanted> = None;
    for annulus in scene.annuli() {
        // The bit's own length is left out: its slots are no annulus. So is the rat hole of the section above: cuttings
        // settle in its few metres of wider hole whatever the flow.
        let rat_hole = !annulus.cased && annulus.bottom <= section.top + 1e-6;
        if annulus.bottom > scene.situation.bit_depth + 1e-6 || annulus.pipe_diameter <= 0.0 || rat_hole {
            continue;
        }
        let area = passage(annulus).area();
        let within = path.stations().iter().map(|station| station.depth);
        let depths = within.filter(|depth| *depth > annulus.top && *depth < annulus.bottom);
        for depth in depths.chain([annulus.top, annulus.bottom]) {
            let Some(depth) = scene.look(annulus.top..=annulus.bottom, depth) else { continue };
            let inclination = path.inclination_at(depth);
            let mud = mud_at(scene, scene.situation, depth)?;
            let sizes = (annulus.hole_diameter, annulus.pipe_diameter);
            let speed = if as_planned {
                prepared.cleaning.velocity(section, &mud, sizes, inclination)
            } else {
                let at = (inclination, penetration_rate);
                mud.velocity(|curve, rec| velocity(section, curve, sizes, at, rec), &mut Off)
            };
            // Where no velocity does, no flow does either.
            let past = speed.unwrap_or(f64::MAX.sqrt()) * area;
            let flow_rate = (past - scene.flow_past(annulus) + scene.situation.flow_rate).max(0.0);
            if worst.as_ref().is_none_or(|kept| flow_rate > kept.flow_rate) {
                worst = Some(Wanted { flow_rate, depth, inclination, annulus: *annulus });
            }
        }
    }
    worst
}

/// Cleaning velocities of a section.
pub struct SectionCleaning {
    known: Vec<Known>,
}

/// Velocities that clean one annulus; `None` where none does. [m/s]
struct Known {
    /// Of temperature; nought for mud that was read at one.
    node: usize,
    hole_diameter: f64,
    pipe_diameter: f64,
    upright: Option<f64>,
    inclined: Option<f64>,
}

impl SectionCleaning {
    /// Of a section of a fit.
    pub fn new(fit: &Fit, index: usize, mud: Option<&MudRheology>, nodes: &[(f64, MudRheology)]) -> SectionCleaning {
        let section = &fit.well.sections[index];
        let Some(mud) = mud else { return SectionCleaning { known: Vec::new() } };
        let curves = if nodes.is_empty() { vec![mud] } else { nodes.iter().map(|node| &node.1).collect() };
        let deviated = fit.well.path.stations().iter().any(|station| station.inclination > UPRIGHT);
        let mut known: Vec<Known> = Vec::new();
        for hole in geometry::hole(fit, index, section.bottom) {
            for part in section.string.iter().filter(|part| part.kind != PartKind::Bit) {
                let (hole_diameter, pipe_diameter) = (hole.diameter, part.outer_diameter);
                if known.iter().any(|known| known.is(0, (hole_diameter, pipe_diameter))) || pipe_diameter >= hole_diameter {
                    continue;
                }
                let rate = section.drilling.penetration_rate;
                for (node, mud) in curves.iter().enumerate() {
                    let at = |inclination| velocity(section, mud, (hole_diameter, pipe_diameter), (inclination, rate), &mut Off);
                    let inclined = if deviated { at(LARSEN_FROM) } else { None };
                    known.push(Known { node, hole_diameter, pipe_diameter, upright: at(0.0), inclined });
                }
            }
        }
        SectionCleaning { known }
    }

    /// Annular velocity that cleans an annulus at an inclination; `None` where none does. [m/s]
    pub fn velocity(&self, section: &Section, mud: &MudAt, sizes: (f64, f64), inclination: f64) -> Option<f64> {
        let lower_velocity = self.of_curve(section, (mud.nodes[0], mud.curves[0]), sizes, inclination)?;
        if mud.share <= 0.0 {
            return Some(lower_velocity);
        }
        let higher_velocity = self.of_curve(section, (mud.nodes[1], mud.curves[1]), sizes, inclination)?;
        Some(VelocityBetweenTemperatures { lower_velocity, higher_velocity, temperature_share: mud.share }.value())
    }

    fn of_curve(
        &self,
        section: &Section,
        (node, mud): (usize, &MudRheology),
        sizes: (f64, f64),
        inclination: f64,
    ) -> Option<f64> {
        let anew = || velocity(section, mud, sizes, (inclination, section.drilling.penetration_rate), &mut Off);
        let Some(known) = self.known.iter().find(|known| known.is(node, sizes)) else { return anew() };
        if inclination > LARSEN_FROM {
            return anew();
        }
        if inclination <= UPRIGHT {
            return known.upright;
        }
        let (upright, inclined) = (known.upright?, known.inclined?);
        Some(upright + (inclined - upright) * inclination / LARSEN_FROM)
    }
}

impl Known {
    fn is(&self, node: usize, (hole_diameter, pipe_diameter): (f64, f64)) -> bool {
        self.node == node
            && (self.hole_diameter - hole_diameter).abs() < 1e-9
            && (self.pipe_diameter - pipe_diameter).abs() < 1e-9
    }
}

/// Annular velocity that cleans an annulus of this hole and pipe diameter at an inclination and a rate of penetration, with its
/// working. [m/s]
pub fn velocity<R: Recorder>(
    section: &Section,
    mud: &MudRheology,
    (hole_diameter, pipe_diameter): (f64, f64),
    (inclination, penetration_rate): (f64, f64),
    rec: &mut R,
) -> Option<f64> {
    let cleaning = Cleaning {
        hole_diameter,
        pipe_diameter,
        density: section.mud.weight,
        cutting: cutting(section),
        bit_diameter: section.hole_diameter,
        penetration_rate,
    };
    let wish = (SlipMethod::Moore, CleanWhen::TransportRatio(section.cleaning.transport_ratio));
    cleaning_velocity(mud, &cleaning, wish, inclination, rec)
}
