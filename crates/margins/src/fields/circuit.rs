//! The way of the mud in one situation: what each piece of annulus and string adds to the pressure.

use crate::Scene;
use crate::fields::column::{Columns, Leg, STEPS};
use crate::fields::flow::{Flow, Piece, cutting, passage, rheology};
use crate::fields::heat::SectionHeat;
use crate::fields::rheology::MudAt;
use crate::fields::runs::{inside, lie, past, surface, tool_loss};
use crate::fields::surge::{Moved, at_speed, moved, peak};
use crate::geometry::{Annulus, Pipe};
use rigwright_physics::circulating::bit::{BitPressureLoss, DISCHARGE_COEFFICIENT};
use rigwright_physics::circulating::cleaning::{CuttingsConcentration, CuttingsRate, DensityWithCuttings, TransportRatio};
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::circulating::friction::FrictionLoss;
use rigwright_physics::circulating::losses::{self, LossMethod};
use rigwright_physics::circulating::passage::Passage;
use rigwright_physics::circulating::runs::{Lie, Run, run_gradient};
use rigwright_physics::circulating::slip::{Rise, SlipMethod, slip_velocity};
use rigwright_physics::circulating::trip::Trip;
use rigwright_physics::circulating::viscometer::MudRheology;
use rigwright_physics::{Off, Recorder};
use rigwright_units::Kind;
use rigwright_well::{Motion, Operation, PartKind, Section, SurfaceWay};

/// Transport ratios below this are reckoned as this: the share of cuttings would grow without end. [-]
const LEAST_TRANSPORT: f64 = 0.1;

/// The way of the mud in one situation.
pub(super) struct Circuit<'a, 'b> {
    scene: &'a Scene<'b>,
    section: &'a Section,
    mud: &'a MudRheology,
    method: LossMethod,
    lie: Lie,
    /// Temperatures, and what pressure and heat do to the weight.
    columns: Option<Columns<'a>>,
    /// Whether they do anything: the file says what the mud is made of.
    weighs: bool,
    /// Mud weight at surface: the section's own, or one that is tried. [kg/m³]
    weight: f64,
}

/// An end of a piece of annulus.
struct End {
    /// Measured depth. [m]
    depth: f64,
    /// [m]
    vertical_depth: f64,
    /// Height of mud at its surface weight that weighs as much as the column down to here. [m]
    column: f64,
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

const COLUMNS: &[(&str, Kind)] = &[
    ("depth", Kind::Depth),
    ("annulus", Kind::Temperature),
    ("string", Kind::Temperature),
    ("annulus", Kind::Density),
    ("string", Kind::Density),
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
pub(super) fn mud<R: Recorder>(scene: &Scene, rec: &mut R) -> Option<MudRheology> {
    if R::ON { rheology(scene.section(), rec) } else { scene.prepared_flow().mud }
}

impl<'a, 'b> Circuit<'a, 'b> {
    pub(super) fn new(scene: &'a Scene<'b>, mud: &'a MudRheology) -> Circuit<'a, 'b> {
        let section = scene.section();
        let prepared = scene.prepared_flow();
        let columns = prepared.heat.as_ref().map(|heat| heat.columns(&scene.situation));
        let weighs = prepared.heat.as_ref().is_some_and(SectionHeat::weighs);
        Circuit { scene, section, mud, method: prepared.method, lie: lie(section), columns, weighs, weight: section.mud.weight }
    }

    /// The same way with mud of another weight.
    pub(super) fn with_weight(self, weight: f64) -> Circuit<'a, 'b> {
        Circuit { weight, ..self }
    }

    /// Pieces of annulus from surface down, with their pressures.
    pub(super) fn annulus<R: Recorder>(&self, rec: &mut R) -> Vec<Piece> {
        let situation = &self.scene.situation;
        let gravity = self.scene.gravity();
        let trip = self.trip(rec);
        let mut pressure_top = situation.back_pressure + self.scene.sea_pressure();
        let mut pieces: Vec<Piece> = Vec::with_capacity(self.scene.annuli().len());
        let mut above: Option<End> = None;
        for (annulus, levels) in self.scene.levelled().rev() {
            // Most pieces begin where the one above them ends.
            let next = above.take().filter(|above| above.depth.to_bits() == annulus.top.to_bits());
            let top = next.unwrap_or_else(|| self.end(annulus.top, levels[0]));
            let bottom = self.end(annulus.bottom, levels[1]);
            let (cuttings, density, gradient) = match &trip {
                Some(trip) => (0.0, self.weight_between(&top, &bottom), self.moving(annulus, trip)),
                None => {
                    let (cuttings, density) = self.density_between(annulus, [&top, &bottom], &mut Off);
                    (cuttings, density, self.flowing(annulus))
                }
            };
            let vertical_top = top.vertical_depth;
            let piece = Piece { annulus: *annulus, vertical_top, pressure_top, cuttings, density, gradient, gravity };
            pressure_top = piece.pressure(annulus.bottom, bottom.vertical_depth);
            above = Some(bottom);
            pieces.push(piece);
        }
        if R::ON {
            self.show_columns(rec);
            match &trip {
                Some(trip) => self.show_trip(trip, rec),
                None => self.show_annulus(&pieces, rec),
            }
        }
        pieces
    }

    /// A place at a measured depth of the annulus. [m]
    fn end(&self, depth: f64, vertical_depth: f64) -> End {
        let columns = self.columns.as_ref().filter(|_| self.weighs);
        let column = columns.map_or(vertical_depth, |columns| columns.weight(Leg::Annulus, depth) * vertical_depth);
        End { depth, vertical_depth, column }
    }

    /// Mean weight of the mud between two ends, without cuttings. [kg/m³]
    fn weight_between(&self, top: &End, bottom: &End) -> f64 {
        let Some(columns) = self.columns.as_ref().filter(|_| self.weighs) else { return self.weight };
        let height = bottom.vertical_depth - top.vertical_depth;
        // A flat stretch weighs what is at its end.
        let share = if height > 0.0 { (bottom.column - top.column) / height } else { columns.weight(Leg::Annulus, bottom.depth) };
        self.weight * share
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
        let temperature = self.temperature(Leg::Annulus, annulus.top, annulus.bottom);
        self.gradient(&past(annulus), self.scene.flow_past(annulus), temperature)
    }

    /// Temperature of the mud in the middle of a stretch, where its flow curve asks for it. [K]
    fn temperature(&self, leg: Leg, top: f64, bottom: f64) -> Option<f64> {
        let columns = self.columns.as_ref().filter(|_| self.scene.prepared_flow().losses.varies())?;
        Some(columns.temperature(leg, 0.5 * (top + bottom)))
    }

    /// Friction of the pumped mud along a run, per length: as prepared where flow and weight are the section's own. [Pa/m]
    fn gradient(&self, run: &Run, rate: f64, temperature: Option<f64>) -> f64 {
        let same = |a: f64, b: f64| (a - b).abs() <= f64::EPSILON * b;
        let own = same(rate, self.section.drilling.flow_rate) && same(self.weight, self.section.mud.weight);
        let losses = &self.scene.prepared_flow().losses;
        let known = match temperature {
            _ if !own => None,
            Some(temperature) => losses.at(run, temperature),
            None => losses.find(run),
        };
        known.unwrap_or_else(|| self.worked(run, rate, temperature, &mut Off))
    }

    /// The same worked out. [Pa/m]
    fn worked<R: Recorder>(&self, run: &Run, rate: f64, temperature: Option<f64>, rec: &mut R) -> f64 {
        let pumped = losses::Flow { rate, density: self.weight };
        let gradient = |mud: &MudRheology, rec: &mut R| run_gradient((self.method, mud), run, pumped, &self.lie, rec);
        self.mud_at(temperature).loss(gradient, rec)
    }

    /// The mud at a temperature, where its flow curve asks for one. [K]
    fn mud_at(&self, temperature: Option<f64>) -> MudAt<'_> {
        let losses = &self.scene.prepared_flow().losses;
        temperature.and_then(|temperature| losses.mud_at(temperature)).unwrap_or_else(|| MudAt::one(self.mud))
    }

    /// The mud in the middle of an annulus.
    fn mud_in(&self, annulus: &Annulus) -> MudAt<'_> {
        self.mud_at(self.temperature(Leg::Annulus, annulus.top, annulus.bottom))
    }

    /// Share of cuttings and weight of the mud with them. [-, kg/m³]
    pub(super) fn density<R: Recorder>(&self, annulus: &Annulus, rec: &mut R) -> (f64, f64) {
        let end = |depth| self.end(depth, self.scene.vertical_depth(depth));
        self.density_between(annulus, [annulus.top, annulus.bottom].map(end).each_ref(), rec)
    }

    /// The same of an annulus between these ends. [-, kg/m³]
    fn density_between<R: Recorder>(&self, annulus: &Annulus, [top, bottom]: [&End; 2], rec: &mut R) -> (f64, f64) {
        let density = self.weight_between(top, bottom);
        let penetration_rate = self.section.drilling.penetration_rate;
        let flow_rate = self.scene.flow_past(annulus);
        if self.scene.situation.operation != Operation::Drilling || !self.passes(annulus) || penetration_rate <= 0.0 {
            return (0.0, density);
        }
        let cuttings_rate = rec.take(CuttingsRate { hole_diameter: self.section.hole_diameter, penetration_rate });
        let passage = passage(annulus);
        let annular_velocity = passage.velocity(flow_rate, rec);
        let rise = Rise { annular_velocity, width: passage.width(), density };
        let cutting = cutting(self.section);
        let slip = |mud: &MudRheology, rec: &mut R| Some(slip_velocity(SlipMethod::Moore, mud, &cutting, &rise, rec));
        let slip_velocity = self.mud_in(annulus).velocity(slip, rec).unwrap_or_default();
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
        let moves = situation.operation.motion() != Motion::Still && situation.pipe_speed > 0.0;
        moves.then(|| match situation.heaves {
            true => at_speed(self.method, self.weight, situation.pipe_speed),
            false => peak(self.method, self.weight, situation.pipe_speed, rec),
        })
    }

    /// Pressure from moving the string, per length: surge positive, swab negative. [Pa/m]
    fn moving(&self, annulus: &Annulus, trip: &Trip) -> f64 {
        let Some(moved) = self.moved(annulus) else { return 0.0 };
        let gradient = self.scene.prepared_flow().surge.gradient(&self.mud_in(annulus), &moved, trip);
        if self.scene.situation.operation.motion() == Motion::Up { -gradient } else { gradient }
    }

    /// A piece with moving pipe in it.
    fn moved(&self, annulus: &Annulus) -> Option<Moved> {
        moved(annulus, self.scene.situation.bit_depth)
    }

    /// What is pumped.
    fn pumped(&self) -> losses::Flow {
        losses::Flow { rate: self.scene.situation.flow_rate, density: self.weight }
    }

    /// Losses from the pump to the bit, and the pressure at the standpipe that they and the annulus ask for.
    pub(super) fn string<R: Recorder>(&self, flow: &mut Flow, rec: &mut R) {
        let pumped = self.pumped();
        rec.heading("inside the string");
        let mut way = Vec::with_capacity(self.scene.string().len());
        for piece in self.scene.string() {
            let Pipe::Part(part) = piece.pipe else { continue };
            let (top, bottom, rate) = (piece.top, piece.bottom, pumped.rate);
            way.extend(inside(part).map(|run| Way { leg: Leg::String, top, bottom, run, rate }));
            match tool_loss(part, pumped, rec) {
                Some(loss) => flow.tool_loss += loss,
                None => flow.missing = Some("section[].string[].tool_loss"),
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
        flow.surface_loss = match self.scene.fit().rig.surface_lines.way {
            SurfaceWay::Pipe { length, inner_diameter } if !R::ON => {
                self.gradient(&Run::plain(Passage::Bore { inner_diameter }), pumped.rate, None) * length
            }
            _ => surface(&self.scene.fit().rig.surface_lines, (self.method, self.mud), pumped, rec),
        };
        rec.heading("standpipe");
        let bit_depth = self.scene.situation.bit_depth;
        let vertical_depth = self.scene.vertical_depth(bit_depth);
        let at_bit = flow.pressure_at(bit_depth, vertical_depth);
        let weight = self.columns.as_ref().map_or(1.0, |columns| columns.weight(Leg::String, bit_depth));
        let (density, gravity) = (pumped.density * weight, self.scene.gravity());
        rec.given("pressure in the annulus at the bit", at_bit, Kind::Pressure);
        flow.string_column = rec.take(Hydrostatic { density, vertical_depth, gravity });
        flow.standpipe = at_bit - flow.string_column + flow.bit_loss + flow.tool_loss + flow.string_loss + flow.surface_loss;
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

    /// Writes down temperatures and columns, where they change the weight.
    fn show_columns<R: Recorder>(&self, rec: &mut R) {
        let Some(columns) = self.columns.as_ref().filter(|_| self.weighs) else {
            rec.note(|| "mud weight is that at surface: the file does not say what the mud is made of".to_owned());
            return;
        };
        rec.heading("mud under pressure and heat");
        rec.table("by measured depth; columns down to it as mud weights", COLUMNS, || {
            let bottom = self.scene.situation.hole_depth;
            let row = |at: usize| {
                let depth = bottom * at as f64 / STEPS as f64;
                let weight = |leg| self.weight * columns.weight(leg, depth);
                let temperature = |leg| columns.temperature(leg, depth);
                vec![depth, temperature(Leg::Annulus), temperature(Leg::String), weight(Leg::Annulus), weight(Leg::String)]
            };
            (0..=STEPS).map(row).collect()
        });
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
                vec![top, bottom, hole_diameter, pipe_diameter, piece.cuttings, piece.density]
            };
            pieces.iter().map(row).collect()
        });
        let way = passed.map(|piece| {
            let Annulus { top, bottom, .. } = piece.annulus;
            let rate = self.scene.flow_past(&piece.annulus);
            Way { leg: Leg::Annulus, top, bottom, run: past(&piece.annulus), rate }
        });
        self.losses("annulus", &way.collect::<Vec<_>>(), rec);
    }

    /// Losses along parts of the way, one after the other. [Pa]
    ///
    /// The working shows the first, the worst and the last in full, all as a table.
    fn losses<R: Recorder>(&self, name: &'static str, way: &[Way], rec: &mut R) -> f64 {
        let temperature = |part: &Way| self.temperature(part.leg, part.top, part.bottom);
        let loss = |part: &Way| self.gradient(&part.run, part.rate, temperature(part)) * (part.bottom - part.top);
        let total = way.iter().map(loss).sum();
        if R::ON && !way.is_empty() {
            let worst = (0..way.len()).max_by(|a, b| loss(&way[*a]).total_cmp(&loss(&way[*b])));
            for (at, leg) in way.iter().enumerate() {
                if at == 0 || at + 1 == way.len() || Some(at) == worst {
                    rec.stretch(|| name.to_owned(), leg.top, leg.bottom);
                    let gradient = self.worked(&leg.run, leg.rate, temperature(leg), rec);
                    rec.take(FrictionLoss { gradient, length: leg.bottom - leg.top });
                }
            }
            rec.table("friction losses", LOSSES, || {
                let row = |leg: &Way| {
                    let body = leg.run.body;
                    vec![leg.top, leg.bottom, body.width(), body.velocity(leg.rate, &mut Off), loss(leg)]
                };
                way.iter().map(row).collect()
            });
            rec.note(|| format!("losses by the method: {}", self.method.name()));
            rec.given("sum of the losses", total, Kind::Pressure);
        }
        total
    }

    /// Writes down surge or swab.
    fn show_trip<R: Recorder>(&self, trip: &Trip, rec: &mut R) {
        rec.heading("moving the string");
        let annuli = self.scene.annuli();
        let moved: Vec<(&Annulus, Moved)> =
            annuli.iter().rev().filter_map(|annulus| Some((annulus, self.moved(annulus)?))).collect();
        let loss =
            |(annulus, moved): &(&Annulus, Moved)| moved.gradient_in(&self.mud_in(annulus), trip, &mut Off) * annulus.length();
        let worst = (0..moved.len()).max_by(|a, b| loss(&moved[*a]).total_cmp(&loss(&moved[*b])));
        for (at, (annulus, pipe)) in moved.iter().enumerate() {
            if at == 0 || at + 1 == moved.len() || Some(at) == worst {
                rec.stretch(|| "annulus".to_owned(), annulus.top, annulus.bottom);
                let gradient = pipe.gradient_in(&self.mud_in(annulus), trip, rec);
                rec.take(FrictionLoss { gradient, length: annulus.length() });
            }
        }
        rec.table("pressure from moving the string", MOVED, || {
            let row = |one: &(&Annulus, Moved)| {
                let annulus = one.0;
                vec![annulus.top, annulus.bottom, annulus.hole_diameter, annulus.pipe_diameter, loss(one)]
            };
            moved.iter().map(row).collect()
        });
    }
}

/// A part of the way with what flows through it.
struct Way {
    leg: Leg,
    top: f64,
    bottom: f64,
    run: Run,
    rate: f64,
}
