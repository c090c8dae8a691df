//! Pressure along the circuit: surface lines, string, bit, annulus; surge and swab when the string moves.
//!
//! Pressures are gauge, in the annulus, and count back pressure, the weight of the mud with its cuttings, and friction from
//! the place up to surface. Below the bit nothing flows: what the bit feels, the hole below feels too.

use crate::Scene;
use crate::fields::PerSection;
use crate::fields::cleaning::SectionCleaning;
use crate::fields::open_hole::OpenHole;
use crate::geometry::{Annulus, Pipe};
use rigwright_physics::circulating::bit::{BitPressureLoss, DISCHARGE_COEFFICIENT, PressureAtFlow};
use rigwright_physics::circulating::cleaning::{CuttingsConcentration, CuttingsRate, DensityWithCuttings, TransportRatio};
use rigwright_physics::circulating::column::{Hydrostatic, Layer, column_pressure};
use rigwright_physics::circulating::friction::FrictionLoss;
use rigwright_physics::circulating::losses::{self, LossMethod, Stream, Stretch, pressure_gradient, stretch_loss};
use rigwright_physics::circulating::passage::Passage;
use rigwright_physics::circulating::rheology::DialConvention;
use rigwright_physics::circulating::slip::{Cutting, Rise, SlipMethod, slip_velocity};
use rigwright_physics::circulating::surge::{PEAK_FACTOR, PeakSpeed};
use rigwright_physics::circulating::trip::{Clinging, End, Trip, TripStretch, trip_gradient};
use rigwright_physics::circulating::viscometer::{FlowModel, MudRheology, Reading};
use rigwright_physics::{Off, Recorder};
use rigwright_units::Kind;
use rigwright_well::{Fit, Model, Motion, Operation, PartKind, Section};

/// Transport ratios below this are reckoned as this: the share of cuttings would grow without end. [-]
const LEAST_TRANSPORT: f64 = 0.1;

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
    /// What the open hole holds and bears.
    pub open_hole: OpenHole,
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
            SectionFlow {
                mud,
                method: method(section),
                open_hole: OpenHole::new(fit, index),
                cleaning: SectionCleaning::new(fit, index, mud.as_ref()),
            }
        })
    }
}

/// The method for losses that the section's mud names.
fn method(section: &Section) -> LossMethod {
    match section.mud.losses {
        rigwright_well::LossMethod::Generalised => LossMethod::Generalised,
        rigwright_well::LossMethod::PowerLaw1995 => LossMethod::PowerLaw1995,
    }
}

/// The section's mud from its readings; `None` when they make no curve.
pub fn rheology<R: Recorder>(section: &Section, rec: &mut R) -> Option<MudRheology> {
    let read = section.mud.rheogram.readings.iter();
    let readings: Vec<Reading> = read.map(|one| Reading { speed_rpm: one.speed_rpm, dial: one.dial }).collect();
    let model = match section.mud.model {
        Model::Bingham => FlowModel::Bingham,
        Model::PowerLaw => FlowModel::PowerLaw,
        Model::HerschelBulkley => FlowModel::HerschelBulkley,
    };
    MudRheology::from_readings(&readings, model, DialConvention::Trade, rec).ok().map(|(mud, _)| mud)
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
    /// Weight of the mud in it, cuttings included. [kg/m³]
    pub density: f64,
    /// Pressure from friction per measured length; negative for swab. [Pa/m]
    pub gradient: f64,
    /// Acceleration of free fall. [m/s²]
    gravity: f64,
}

impl Piece {
    fn pressure(&self, depth: f64, vertical_depth: f64) -> f64 {
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

    /// Writes down the annulus alone: what the mud window needs.
    pub fn show_annulus<R: Recorder>(scene: &Scene, rec: &mut R) {
        if let Some(mud) = mud(scene, rec) {
            Circuit::new(scene, &mud).annulus(rec);
        }
    }

    fn unknown(entry: &'static str) -> Flow {
        Flow {
            standpipe: 0.0,
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

/// The way of the mud in one situation.
struct Circuit<'a, 'b> {
    scene: &'a Scene<'b>,
    section: &'a Section,
    mud: &'a MudRheology,
    method: LossMethod,
}

const LOSSES: &[(&str, Kind)] = &[
    ("from", Kind::Depth),
    ("to", Kind::Depth),
    ("width", Kind::Diameter),
    ("mean velocity", Kind::Speed),
    ("loss", Kind::Pressure),
];

const MOVED: &[(&str, Kind)] = &[
    ("from", Kind::Depth),
    ("to", Kind::Depth),
    ("hole", Kind::Diameter),
    ("pipe", Kind::Diameter),
    ("surge or swab", Kind::Pressure),
];

const LOADED: &[(&str, Kind)] = &[
    ("from", Kind::Depth),
    ("to", Kind::Depth),
    ("hole", Kind::Diameter),
    ("pipe", Kind::Diameter),
    ("share of cuttings", Kind::Fraction),
    ("mud with cuttings", Kind::Density),
];

/// The section's mud: the prepared one, or made again for its working.
fn mud<R: Recorder>(scene: &Scene, rec: &mut R) -> Option<MudRheology> {
    if R::ON { rheology(scene.section(), rec) } else { scene.prepared_flow().mud }
}

impl<'a, 'b> Circuit<'a, 'b> {
    fn new(scene: &'a Scene<'b>, mud: &'a MudRheology) -> Circuit<'a, 'b> {
        let method = scene.prepared_flow().method;
        Circuit { scene, section: scene.section(), mud, method }
    }

    /// Pieces of annulus from surface down, with their pressures.
    fn annulus<R: Recorder>(&self, rec: &mut R) -> Vec<Piece> {
        let situation = &self.scene.situation;
        let gravity = self.scene.gravity();
        let trip = self.trip(rec);
        let mut pressure_top = situation.back_pressure;
        let mut pieces: Vec<Piece> = Vec::with_capacity(self.scene.annuli().len());
        for annulus in self.scene.annuli().iter().rev() {
            let vertical_top = self.scene.vertical_depth(annulus.top);
            let (density, gradient) = match &trip {
                Some(trip) => (self.section.mud.weight, self.moving(annulus, trip)),
                None => (self.density(annulus, &mut Off).1, self.flowing(annulus)),
            };
            let piece = Piece { annulus: *annulus, vertical_top, pressure_top, density, gradient, gravity };
            pressure_top = piece.pressure(annulus.bottom, self.scene.vertical_depth(annulus.bottom));
            pieces.push(piece);
        }
        if R::ON {
            match &trip {
                Some(trip) => self.show_trip(trip, rec),
                None => self.show_annulus(&pieces, rec),
            }
        }
        pieces
    }

    /// Whether the mud is pumped past this piece.
    fn passes(&self, annulus: &Annulus) -> bool {
        self.scene.situation.flow_rate > 0.0 && annulus.bottom <= self.scene.situation.bit_depth + 1e-6
    }

    /// Friction of the pumped mud per length. [Pa/m]
    fn flowing(&self, annulus: &Annulus) -> f64 {
        if !self.passes(annulus) || annulus.pipe_diameter <= 0.0 {
            return 0.0;
        }
        let passage = passage(annulus);
        let velocity = passage.velocity(self.scene.situation.flow_rate, &mut Off);
        let stream = Stream { velocity, density: self.section.mud.weight };
        pressure_gradient(self.method, self.mud, &passage, stream, &mut Off)
    }

    /// Share of cuttings and weight of the mud with them. [-, kg/m³]
    fn density<R: Recorder>(&self, annulus: &Annulus, rec: &mut R) -> (f64, f64) {
        let density = self.section.mud.weight;
        let penetration_rate = self.section.drilling.penetration_rate;
        let flow_rate = self.scene.situation.flow_rate;
        if self.scene.situation.operation != Operation::Drilling || !self.passes(annulus) || penetration_rate <= 0.0 {
            return (0.0, density);
        }
        let cuttings_rate = rec.take(CuttingsRate { hole_diameter: self.section.hole_diameter, penetration_rate });
        let passage = passage(annulus);
        let annular_velocity = passage.velocity(flow_rate, rec);
        let rise = Rise { annular_velocity, width: passage.width(), density };
        let cutting = cutting(self.section);
        let slip_velocity = slip_velocity(SlipMethod::Moore, self.mud, &cutting, &rise, rec);
        let ratio = rec.take(TransportRatio { slip_velocity, annular_velocity });
        if ratio < LEAST_TRANSPORT {
            rec.note(|| format!("transport ratio reckoned as {LEAST_TRANSPORT}"));
        }
        let transport_ratio = ratio.max(LEAST_TRANSPORT);
        let concentration = rec.take(CuttingsConcentration { cuttings_rate, flow_rate, transport_ratio }).min(1.0);
        let cutting_density = cutting.density;
        (concentration, rec.take(DensityWithCuttings { density, cutting_density, cuttings_concentration: concentration }))
    }

    /// How the string moves, peak speed included; `None` when it does not.
    fn trip<R: Recorder>(&self, rec: &mut R) -> Option<Trip> {
        let situation = &self.scene.situation;
        if situation.operation.motion() == Motion::Still || situation.pipe_speed <= 0.0 {
            return None;
        }
        let pipe_speed = rec.take(PeakSpeed { pipe_speed: situation.pipe_speed, peak_factor: PEAK_FACTOR });
        Some(Trip {
            pipe_speed,
            density: self.section.mud.weight,
            end: End::Closed,
            method: self.method,
            clinging: Clinging::Exact,
        })
    }

    /// Pressure from moving the string, per length: surge positive, swab negative. [Pa/m]
    fn moving(&self, annulus: &Annulus, trip: &Trip) -> f64 {
        let Some(stretch) = self.moved(annulus) else { return 0.0 };
        let gradient = trip_gradient(self.mud, &stretch, trip, 0.0, &mut Off);
        if self.scene.situation.operation.motion() == Motion::Up { -gradient } else { gradient }
    }

    /// A piece with moving pipe in it.
    fn moved(&self, annulus: &Annulus) -> Option<TripStretch> {
        let beside = annulus.pipe_diameter > 0.0 && annulus.bottom <= self.scene.situation.bit_depth + 1e-6;
        beside.then_some(TripStretch {
            length: annulus.length(),
            hole_diameter: annulus.hole_diameter,
            pipe_diameter: annulus.pipe_diameter,
            inner_diameter: 0.0,
        })
    }

    /// What is pumped.
    fn pumped(&self) -> losses::Flow {
        losses::Flow { rate: self.scene.situation.flow_rate, density: self.section.mud.weight }
    }

    /// Losses from the pump to the bit, and the pressure at the standpipe that they and the annulus ask for.
    fn string<R: Recorder>(&self, flow: &mut Flow, rec: &mut R) {
        let pumped = self.pumped();
        rec.heading("inside the string");
        let mut way = Vec::with_capacity(self.scene.string().len());
        for piece in self.scene.string() {
            let Pipe::Part(part) = piece.pipe else { continue };
            if part.inner_diameter > 0.0 {
                way.push((piece.top, piece.bottom, Passage::Bore { inner_diameter: part.inner_diameter }));
            }
            match (part.kind, part.tool_loss, part.tool_flow) {
                (_, Some(pressure), Some(tool_flow)) if tool_flow > 0.0 => {
                    let flow_ratio = pumped.rate / tool_flow;
                    flow.tool_loss += rec.take(PressureAtFlow { pressure, flow_ratio, flow_exponent: 2.0 });
                }
                (PartKind::Motor | PartKind::Tool, ..) => flow.missing = Some("section[].string[].tool_loss"),
                _ => {}
            }
            if let (PartKind::Bit, Some(flow_area)) = (part.kind, part.flow_area) {
                let (density, flow_rate) = (pumped.density, pumped.rate);
                let discharge_coefficient = DISCHARGE_COEFFICIENT;
                flow.bit_loss = rec.take(BitPressureLoss { density, flow_rate, flow_area, discharge_coefficient });
            } else if part.kind == PartKind::Bit {
                flow.missing = Some("section[].string[].nozzles");
            }
        }
        flow.string_loss = self.losses("string", &way, rec);
        rec.heading("surface lines");
        let lines = self.scene.fit().rig.surface_lines;
        let passage = Passage::Bore { inner_diameter: lines.inner_diameter };
        let stretch = Stretch { passage, length: lines.length };
        flow.surface_loss = stretch_loss(self.method, self.mud, &stretch, pumped, rec);
        rec.heading("standpipe");
        let bit_depth = self.scene.situation.bit_depth;
        let vertical_depth = self.scene.vertical_depth(bit_depth);
        let at_bit = flow.pressure_at(bit_depth, vertical_depth);
        let (density, gravity) = (pumped.density, self.scene.gravity());
        rec.given("pressure in the annulus at the bit", at_bit, Kind::Pressure);
        let inside = rec.take(Hydrostatic { density, vertical_depth, gravity });
        flow.standpipe = at_bit - inside + flow.bit_loss + flow.tool_loss + flow.string_loss + flow.surface_loss;
        for (what, value) in [
            ("nozzles", flow.bit_loss),
            ("motors and tools", flow.tool_loss),
            ("inside the string", flow.string_loss),
            ("surface lines", flow.surface_loss),
            ("standpipe pressure", flow.standpipe),
        ] {
            rec.given(what, value, Kind::Pressure);
        }
        rec.note(|| "annulus at the bit, less the column in the string, plus nozzles, tools, string and lines".to_owned());
    }

    /// Writes down the annulus of pumped or still mud.
    fn show_annulus<R: Recorder>(&self, pieces: &[Piece], rec: &mut R) {
        let passed = pieces.iter().filter(|piece| self.passes(&piece.annulus) && piece.annulus.pipe_diameter > 0.0);
        let lowest = passed.clone().next_back();
        if let Some(lowest) = lowest.filter(|_| self.scene.situation.operation == Operation::Drilling) {
            rec.heading("cuttings in the lowest annulus");
            self.density(&lowest.annulus, rec);
        }
        rec.heading("annulus");
        rec.table("annulus from surface down", LOADED, || {
            let row = |piece: &Piece| {
                let Annulus { top, bottom, hole_diameter, pipe_diameter, .. } = piece.annulus;
                vec![top, bottom, hole_diameter, pipe_diameter, self.density(&piece.annulus, &mut Off).0, piece.density]
            };
            pieces.iter().map(row).collect()
        });
        let way = passed.map(|piece| (piece.annulus.top, piece.annulus.bottom, passage(&piece.annulus)));
        self.losses("annulus", &way.collect::<Vec<_>>(), rec);
    }

    /// Losses along pieces (top, bottom, passage), each passed by the whole flow. [Pa]
    ///
    /// The working shows the first, the worst and the last in full, all as a table.
    fn losses<R: Recorder>(&self, name: &'static str, way: &[(f64, f64, Passage)], rec: &mut R) -> f64 {
        let pumped = self.pumped();
        let stretch = |(top, bottom, passage): &(f64, f64, Passage)| Stretch { passage: *passage, length: bottom - top };
        let loss = |piece: &(f64, f64, Passage)| stretch_loss(self.method, self.mud, &stretch(piece), pumped, &mut Off);
        let total = way.iter().map(loss).sum();
        if R::ON && !way.is_empty() {
            let worst = (0..way.len()).max_by(|a, b| loss(&way[*a]).total_cmp(&loss(&way[*b])));
            for (at, piece) in way.iter().enumerate() {
                if at == 0 || at + 1 == way.len() || Some(at) == worst {
                    rec.stretch(|| name.to_owned(), piece.0, piece.1);
                    stretch_loss(self.method, self.mud, &stretch(piece), pumped, rec);
                }
            }
            rec.table("friction losses", LOSSES, || {
                let row = |piece: &(f64, f64, Passage)| {
                    vec![piece.0, piece.1, piece.2.width(), piece.2.velocity(pumped.rate, &mut Off), loss(piece)]
                };
                way.iter().map(row).collect()
            });
            rec.given("sum of the losses", total, Kind::Pressure);
        }
        total
    }

    /// Writes down surge or swab.
    fn show_trip<R: Recorder>(&self, trip: &Trip, rec: &mut R) {
        rec.heading("moving the string");
        let annuli = self.scene.annuli();
        let moved: Vec<(&Annulus, TripStretch)> =
            annuli.iter().rev().filter_map(|annulus| Some((annulus, self.moved(annulus)?))).collect();
        let loss = |stretch: &TripStretch| trip_gradient(self.mud, stretch, trip, 0.0, &mut Off) * stretch.length;
        let worst = (0..moved.len()).max_by(|a, b| loss(&moved[*a].1).total_cmp(&loss(&moved[*b].1)));
        for (at, (annulus, stretch)) in moved.iter().enumerate() {
            if at == 0 || at + 1 == moved.len() || Some(at) == worst {
                rec.stretch(|| "annulus".to_owned(), annulus.top, annulus.bottom);
                let gradient = trip_gradient(self.mud, stretch, trip, 0.0, rec);
                rec.take(FrictionLoss { gradient, length: stretch.length });
            }
        }
        rec.table("pressure from moving the string", MOVED, || {
            let row = |(annulus, stretch): &(&Annulus, TripStretch)| {
                vec![annulus.top, annulus.bottom, annulus.hole_diameter, annulus.pipe_diameter, loss(stretch)]
            };
            moved.iter().map(row).collect()
        });
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
