//! Pressure along the circuit: surface lines, string, bit, annulus; surge and swab when the string moves.
//!
//! Pressures are gauge, in the annulus, and count back pressure, the weight of the mud with its cuttings, and friction from
//! the place up to surface. Below the bit nothing flows: what the bit feels, the hole below feels too.

use crate::Scene;
use crate::fields::PerSection;
use crate::fields::circuit::{Circuit, mud};
use crate::fields::cleaning::SectionCleaning;
use crate::fields::heat::SectionHeat;
use crate::fields::open_hole::OpenHole;
use crate::fields::rheology::by_temperature;
use crate::fields::runs::SectionLosses;
use crate::geometry::Annulus;
use rigwright_physics::circulating::choose::best_fit;
use rigwright_physics::circulating::column::{Layer, column_pressure};
use rigwright_physics::circulating::losses::LossMethod;
use rigwright_physics::circulating::passage::Passage;
use rigwright_physics::circulating::rheology::DialConvention;
use rigwright_physics::circulating::slip::Cutting;
use rigwright_physics::circulating::viscometer::{FlowModel, MudRheology, Reading};
use rigwright_physics::{Off, Recorder};
use rigwright_units::Kind;
use rigwright_well::{Fit, Model, Section};

/// What the pressure field reads in every situation of a fit.
pub struct Prepared {
    sections: PerSection<SectionFlow>,
}

/// What is prepared of one section.
pub struct SectionFlow {
    /// The mud; `None` when its readings make no flow curve.
    pub mud: Option<MudRheology>,
    /// Method for losses.
    pub method: LossMethod,
    /// Friction of the section's own flow along each run of pipe.
    pub losses: SectionLosses,
    /// Temperature of the mud, and its weight under pressure and heat; `None` without a flow curve.
    pub heat: Option<SectionHeat>,
    /// What the open hole holds and bears.
    pub open_hole: OpenHole,
    /// What moving pipe costs.
    pub surge: super::surge::Known,
    /// What cleans the hole.
    pub cleaning: SectionCleaning,
}

impl Prepared {
    /// Prepares a fit.
    pub fn new(fit: &Fit) -> Prepared {
        Prepared { sections: PerSection::new(fit.well.sections.len()) }
    }

    /// What is prepared of a section of the fit.
    pub fn section(&self, fit: &Fit, index: usize) -> &SectionFlow {
        self.sections.get(index, || {
            let section = &fit.well.sections[index];
            let mud = rheology(section, &mut Off);
            let method = method(section);
            let mut nodes = by_temperature(&section.mud);
            nodes.iter_mut().for_each(|node| node.1 = node.1.in_rough_walls(section.mud.roughness));
            let losses = mud.map(|mud| SectionLosses::new(fit, index, &mud, method, nodes)).unwrap_or_default();
            SectionFlow {
                mud,
                method,
                heat: mud.map(|mud| SectionHeat::new(fit, index, &mud, &losses)),
                cleaning: SectionCleaning::new(fit, index, mud.as_ref(), losses.nodes()),
                losses,
                open_hole: OpenHole::new(fit, index),
                surge: super::surge::Known::new(section.mud.weight),
            }
        })
    }
}

/// The method for losses that the section's mud names.
fn method(section: &Section) -> LossMethod {
    match section.mud.losses {
        rigwright_well::LossMethod::Generalised => LossMethod::Generalised,
        rigwright_well::LossMethod::Exact => LossMethod::Exact,
        rigwright_well::LossMethod::PowerLaw1995 => LossMethod::PowerLaw1995,
        rigwright_well::LossMethod::BinghamField => LossMethod::BinghamField,
    }
}

/// The section's mud from its readings; `None` when they make no curve.
pub fn rheology<R: Recorder>(section: &Section, rec: &mut R) -> Option<MudRheology> {
    let read = section.mud.rheogram.readings.iter();
    let readings: Vec<Reading> = read.map(|one| Reading { speed_rpm: one.speed_rpm, dial: one.dial }).collect();
    Some(flow_curve(section.mud.model, &readings, rec)?.in_rough_walls(section.mud.roughness))
}

/// A mud by a flow model from readings; `None` when they make no curve.
pub(super) fn flow_curve<R: Recorder>(model: Model, readings: &[Reading], rec: &mut R) -> Option<MudRheology> {
    let model = match model {
        Model::Bingham => FlowModel::Bingham,
        Model::PowerLaw => FlowModel::PowerLaw,
        Model::PowerLawInTwo => FlowModel::PowerLawInTwo,
        Model::HerschelBulkley => FlowModel::HerschelBulkley,
        Model::Casson => FlowModel::Casson,
        Model::BestFit => return best_fit(readings, DialConvention::Trade, rec).ok().map(|(mud, _)| mud),
    };
    rec.note(|| format!("flow model named by the well file: {}", model.name()));
    MudRheology::from_readings(readings, model, DialConvention::Trade, rec).ok().map(|(mud, _)| mud)
}

/// The circuit's field in one situation.
pub struct Flow {
    /// Pressure at the standpipe, gauge. [Pa]
    pub standpipe: f64,
    /// Pressure in the annulus at the bottom of the hole. [Pa]
    pub bottom_pressure: f64,
    /// Friction in the annulus from the bit to surface; from moving the string: surge positive, swab negative. [Pa]
    pub annular_loss: f64,
    /// Friction inside the string. [Pa]
    pub string_loss: f64,
    /// What the mud inside the string weighs on the bit. [Pa]
    pub string_column: f64,
    /// Pressure that motors and tools take. [Pa]
    pub tool_loss: f64,
    /// Pressure lost in the nozzles. [Pa]
    pub bit_loss: f64,
    /// Friction in the surface lines. [Pa]
    pub surface_loss: f64,
    /// The entry without which the standpipe pressure is not known.
    pub missing: Option<&'static str>,
    /// Pieces of annulus from surface down.
    pub pieces: Vec<Piece>,
}

/// A piece of annulus in which pressure grows steadily.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Where it lies and what it is.
    pub annulus: Annulus,
    /// Vertical depth of its upper end. [m]
    pub vertical_top: f64,
    /// Pressure at its upper end. [Pa]
    pub pressure_top: f64,
    /// Share of cuttings. [-]
    pub cuttings: f64,
    /// Weight of the mud in it, cuttings included. [kg/m³]
    pub density: f64,
    /// Pressure from friction per measured length; negative for swab. [Pa/m]
    pub gradient: f64,
    /// Acceleration of free fall. [m/s²]
    pub(super) gravity: f64,
}

impl Piece {
    pub(super) fn pressure(&self, depth: f64, vertical_depth: f64) -> f64 {
        let weight = self.density * self.gravity * (vertical_depth - self.vertical_top);
        self.pressure_top + weight + self.gradient * (depth - self.annulus.top)
    }
}

impl Flow {
    /// Pressure in the annulus at a measured depth whose vertical depth is given. [Pa]
    pub fn pressure_at(&self, depth: f64, vertical_depth: f64) -> f64 {
        let below = self.pieces.partition_point(|piece| piece.annulus.top <= depth);
        self.pieces.get(below.saturating_sub(1)).map_or(0.0, |piece| piece.pressure(depth, vertical_depth))
    }

    /// Writes down how the pressure at a depth comes about: back pressure, columns, friction above. [Pa]
    pub fn show_pressure<R: Recorder>(&self, scene: &Scene, depth: f64, vertical_depth: f64, rec: &mut R) -> f64 {
        let pressure = self.pressure_at(depth, vertical_depth);
        let mut layers: Vec<Layer> = Vec::new();
        if scene.sea_pressure() > 0.0 {
            rec.note(|| "the sea stands above the sea bed, mud below".to_owned());
            layers.push(Layer { density: scene.sea_density(), height: scene.fit().well.water_depth });
        }
        for piece in self.pieces.iter().filter(|piece| piece.annulus.top < depth) {
            let end = scene.vertical_depth(piece.annulus.bottom.min(depth));
            let height = end - piece.vertical_top;
            match layers.last_mut() {
                Some(above) if (above.density - piece.density).abs() < 1e-9 => above.height += height,
                _ => layers.push(Layer { density: piece.density, height }),
            }
        }
        let back_pressure = scene.situation.back_pressure;
        rec.given("back pressure at surface", back_pressure, Kind::Pressure);
        let column = column_pressure(&layers, scene.gravity(), rec);
        rec.given("friction, surge or swab from here up", pressure - back_pressure - column, Kind::Pressure);
        rec.given("pressure in the annulus: the sum of the three", pressure, Kind::Pressure);
        pressure
    }

    /// Solves a situation.
    pub fn solve<R: Recorder>(scene: &Scene, rec: &mut R) -> Flow {
        let situation = &scene.situation;
        let Some(mud) = mud(scene, rec) else { return Flow::unknown("section[].mud.readings") };
        let circuit = Circuit::new(scene, &mud);
        let pieces = circuit.annulus(rec);
        let bottom = scene.vertical_depth(situation.hole_depth);
        let mut flow = Flow { pieces, ..Flow::unknown("") };
        flow.missing = None;
        flow.bottom_pressure = flow.pressure_at(situation.hole_depth, bottom);
        let loss = |piece: &Piece| piece.gradient * piece.annulus.length();
        flow.annular_loss = flow.pieces.iter().map(loss).sum();
        if situation.flow_rate > 0.0 {
            circuit.string(&mut flow, rec);
        }
        flow
    }

    /// The annulus alone with mud of another weight; without pieces when the mud has no flow curve.
    pub fn with_weight(scene: &Scene, weight: f64) -> Flow {
        let Some(mud) = mud(scene, &mut Off) else { return Flow::unknown("section[].mud.readings") };
        let pieces = Circuit::new(scene, &mud).with_weight(weight).annulus(&mut Off);
        Flow { pieces, missing: None, ..Flow::unknown("") }
    }

    /// Writes down the share of cuttings in an annulus.
    pub fn show_cuttings<R: Recorder>(scene: &Scene, annulus: &Annulus, rec: &mut R) {
        if let Some(mud) = mud(scene, &mut Off) {
            Circuit::new(scene, &mud).density(annulus, rec);
        }
    }

    /// Writes down the annulus alone: what the mud window needs.
    pub fn show_annulus<R: Recorder>(scene: &Scene, rec: &mut R) {
        if let Some(mud) = mud(scene, rec) {
            Circuit::new(scene, &mud).annulus(rec);
        }
    }

    fn unknown(entry: &'static str) -> Flow {
        Flow {
            standpipe: 0.0,
            string_column: 0.0,
            bottom_pressure: 0.0,
            annular_loss: 0.0,
            string_loss: 0.0,
            tool_loss: 0.0,
            bit_loss: 0.0,
            surface_loss: 0.0,
            missing: Some(entry),
            pieces: Vec::new(),
        }
    }
}

/// The annulus as the loss methods see it.
pub(crate) fn passage(annulus: &Annulus) -> Passage {
    Passage::Annulus { hole_diameter: annulus.hole_diameter, pipe_diameter: annulus.pipe_diameter }
}

/// The section's cuttings; half as thick as wide where a method asks (common practice).
pub(crate) fn cutting(section: &Section) -> Cutting {
    let size = section.cleaning.cutting_size;
    Cutting { size, thickness: size / 2.0, density: section.cleaning.cutting_density }
}
