//! Temperature of the mud along the way, and what pressure and heat do to its weight: prepared once a section.
//!
//! While mud is pumped, and through a connection or a shut-in well, it has the temperature of steady circulation in a straight hole of
//! mean sizes, by the closed form of Holmes & Swift; on trips it has that of the rock. The column is integrated in a few steps at three
//! hole depths of the section. What a column weighs as a share of the same column at surface weight is so even a curve that a
//! parabola over the hole depth and straight lines along the hole serve between them.

use super::column::{Column, Columns, STEPS};
use super::runs::{SectionLosses, inside, past, tool_loss};
use crate::{Scene, geometry, sweep};
use rigwright_physics::circulating::bit::{BitPressureLoss, DISCHARGE_COEFFICIENT};
use rigwright_physics::circulating::density::mud::{Composition, Part};
use rigwright_physics::circulating::density::{Liquid, State};
use rigwright_physics::circulating::losses::{Flow, LossMethod, Stream, friction};
use rigwright_physics::circulating::passage::Passage;
use rigwright_physics::circulating::temperature::rock::Rings;
use rigwright_physics::circulating::temperature::steady::SteadyCirculation;
use rigwright_physics::circulating::temperature::transfer::*;
use rigwright_physics::circulating::temperature::transient::{HeatCell, HeatWell, Outside, Pumping, WellHeat};
use rigwright_physics::circulating::viscometer::MudRheology;
use rigwright_physics::{Formula, Kind, Off, Recorder};
use rigwright_well::{Fit, Mud, Operation, PartKind, Situation};

/// What is prepared of one section.
pub struct SectionHeat {
    /// What the mud is made of; `None` when the file does not say.
    composition: Option<Composition>,
    /// Columns in circulation at three hole depths; `None` when the temperature of circulation is not known.
    flowing: Option<[Column; 3]>,
    /// The column at the temperature of the rock.
    still: Column,
    /// The entry without which the temperature of circulation is not known.
    pub missing: Option<&'static str>,
}

/// The heat of a scene's section, to be asked at a hole depth.
pub struct Heat<'a> {
    prepared: &'a SectionHeat,
    make: Make<'a>,
}

impl<'a> Heat<'a> {
    /// Of the section of a scene; `None` when its mud has no flow curve.
    pub fn new(scene: &'a Scene) -> Option<Heat<'a>> {
        let flow = scene.prepared_flow();
        let (mud, prepared) = (flow.mud.as_ref()?, flow.heat.as_ref()?);
        let composition = prepared.composition.as_ref();
        let make = Make { fit: scene.fit(), section: scene.situation.section, mud, losses: &flow.losses, composition };
        Some(Heat { prepared, make })
    }

    /// The entry without which the temperature of circulation is not known.
    pub fn missing(&self) -> Option<&'static str> {
        self.prepared.missing
    }

    /// Steady circulation at a hole depth, with its working.
    pub fn circulation<R: Recorder>(&self, hole_depth: f64, rec: &mut R) -> Option<SteadyCirculation> {
        if R::ON {
            rec.heading("mud as heat sees it");
            composition(&self.make.fit.well.sections[self.make.section].mud, rec);
        }
        circulation(&self.make, hole_depth, rec)
    }

    /// The same well by a march in time with its own sizes and the rock in rings: where the closed form leads after a while.
    /// Bit and flow line. [K]
    pub fn march(&self, steady: &SteadyCirculation) -> Option<[f64; 2]> {
        /// Cells along the hole, and steps in time.
        const CELLS: usize = 40;
        const TIMES: usize = 60;
        let (make, hole_depth) = (&self.make, steady.length);
        let well = &make.fit.well;
        let this = &well.sections[make.section];
        let film = film(make, &mean_annulus(steady), steady.specific_heat, &mut Off)?;
        let situation = sweep::situation(make.fit, make.section, Operation::Circulating, hole_depth, hole_depth);
        let string = geometry::string(make.fit, &situation);
        let annuli = geometry::annuli(make.fit, &situation, &string);
        let start = well.elevation + well.water_depth;
        let [inside, outside, bit_loss] = steady.losses;
        let length = hole_depth / CELLS as f64;
        let cell = |at: usize| {
            let depth = (at as f64 + 0.5) * length;
            let annulus =
                annuli.iter().find(|annulus| annulus.pipe_diameter > 0.0 && annulus.bottom >= depth && annulus.top <= depth);
            let bore = string.iter().find(|piece| piece.top <= depth && piece.bottom >= depth);
            let bore = bore.map(|piece| piece.pipe.inner_diameter()).filter(|bore| *bore > 0.0);
            let pipe_diameter = annulus.map_or(steady.pipe_diameter, |annulus| annulus.pipe_diameter);
            HeatCell {
                length,
                undisturbed: well.geotherm.at(well.path.vertical_depth_at(depth), start),
                hole_diameter: annulus.map_or(steady.hole_diameter, |annulus| annulus.hole_diameter),
                pipe_diameter,
                inner_diameter: bore.unwrap_or(0.8 * pipe_diameter).min(pipe_diameter),
                pipe_transfer: steady.pipe_transfer,
                face_transfer: film,
                pipe_loss: inside / hole_depth,
                annulus_loss: outside / hole_depth,
                outside: Outside::Rock(well.heat.rock),
            }
        };
        let cells = (0..CELLS).map(cell).collect();
        let (density, specific_heat) = (steady.density, steady.specific_heat);
        let mut heat = WellHeat::at_rest(HeatWell { cells, density, specific_heat, rings: Rings::USUAL })?;
        let (flow_rate, inlet_temperature) = (this.drilling.flow_rate, steady.inlet_temperature);
        let pumping = Pumping { flow_rate, inlet_temperature, bit_loss };
        let last = heat.run(&pumping, well.heat.circulated, TIMES, &mut Off)?;
        Some([last.bit_temperature, last.outlet_temperature])
    }

    /// Writes down the march in time beside the closed form.
    pub fn show_march<R: Recorder>(&self, steady: &SteadyCirculation, rec: &mut R) {
        rec.heading("the same by a march in time");
        rec.note(|| {
            "the hole in cells with their own sizes, the rock in rings, from rest; in place of the closed form's mean sizes and rock function"
                .to_owned()
        });
        rec.given("time circulated", self.make.fit.well.heat.circulated, Kind::Time);
        if let Some([bit, line]) = self.march(steady) {
            rec.given("at the bit", bit, Kind::Temperature);
            rec.given("at the flow line", line, Kind::Temperature);
        }
    }
}

fn mean_annulus(steady: &SteadyCirculation) -> Passage {
    Passage::Annulus { hole_diameter: steady.hole_diameter, pipe_diameter: steady.pipe_diameter }
}

/// What a column is made for.
struct Make<'a> {
    fit: &'a Fit,
    section: usize,
    mud: &'a MudRheology,
    losses: &'a SectionLosses,
    composition: Option<&'a Composition>,
}

impl SectionHeat {
    /// Of a section of a fit.
    pub fn new(fit: &Fit, section: usize, mud: &MudRheology, losses: &SectionLosses) -> SectionHeat {
        let this = &fit.well.sections[section];
        let composition = composition(&this.mud, &mut Off);
        let make = Make { fit, section, mud, losses, composition: composition.as_ref() };
        let missing = missing(fit, section, composition.as_ref());
        let shallow = this.top.max(0.1 * this.bottom);
        let depths = [shallow, 0.5 * (shallow + this.bottom), this.bottom];
        let flowing = missing.is_none().then(|| depths.map(|depth| make.flowing(depth)));
        let flowing = match flowing {
            Some([Some(a), Some(b), Some(c)]) => Some([a, b, c]),
            _ => None,
        };
        SectionHeat { flowing, still: make.still(), composition, missing }
    }

    /// The columns of a situation.
    pub fn columns(&self, situation: &Situation) -> Columns<'_> {
        match &self.flowing {
            Some(columns) if keeps_heat(situation.operation) => Columns::flowing(columns, situation.hole_depth),
            _ => Columns::still(&self.still),
        }
    }

    /// Whether pressure and heat change the weight of this mud.
    pub fn weighs(&self) -> bool {
        self.composition.is_some()
    }
}

/// Whether the mud still has the temperature of circulation: a trip takes hours, a connection minutes.
fn keeps_heat(operation: Operation) -> bool {
    !matches!(operation, Operation::PullingOut | Operation::RunningIn | Operation::RunningCasing)
}

/// The entry without which the temperature of circulation is not known.
fn missing(fit: &Fit, section: usize, composition: Option<&Composition>) -> Option<&'static str> {
    let this = &fit.well.sections[section];
    if this.drilling.inlet_temperature.is_none() {
        Some("section[].drilling.inlet_temperature")
    } else if this.mud.specific_heat.is_none() && composition.is_none() {
        Some("section[].mud.specific_heat")
    } else {
        None
    }
}

/// The mud as liquids and solids; `None` when the file has no retort.
///
/// The retort drives off fresh water: the salt that was dissolved in it stays behind, and its brine is more than that water.
pub fn composition<R: Recorder>(mud: &Mud, rec: &mut R) -> Option<Composition> {
    let retort = mud.retort.as_ref()?;
    let reference = State::at_surface(mud.weighed_at)?;
    let (water, fraction) = match retort.salt_fraction.filter(|fraction| *fraction > 0.0) {
        None => (Liquid::FreshWater, retort.water),
        Some(salt_fraction) => {
            let brine = Liquid::Brine { salt: retort.salt, salt_fraction };
            if !brine.is_sane() {
                return None;
            }
            let (fresh, salt) = (Liquid::FreshWater.density(reference, rec), brine.density(reference, rec));
            (brine, retort.water * fresh / ((1.0 - salt_fraction) * salt))
        }
    };
    let oil = Part { liquid: Liquid::BaseOil(retort.oil_density), fraction: retort.oil };
    let most = 1.0 - retort.oil;
    let composition = Composition::new(mud.weight, reference, oil, Part { liquid: water, fraction: fraction.min(most) })?;
    let [oil, water, solids] = composition.fractions();
    rec.given("share of oil", oil, Kind::Fraction);
    rec.given("share of water or brine, its salt included", water, Kind::Fraction);
    rec.given("share of solids", solids, Kind::Fraction);
    Some(composition)
}

/// Specific heat of a mud: as given, else from what it is made of. [J/(kg·K)]
fn specific_heat<R: Recorder>(mud: &Mud, composition: Option<&Composition>, rec: &mut R) -> Option<f64> {
    /// Least share of solids that the formula takes, and what solids weigh when there are none. [-], [kg/m³]
    const NO_SOLIDS: (f64, f64) = (1e-9, 2600.0);
    if let Some(given) = mud.specific_heat {
        rec.given("specific heat of the mud", given, Kind::SpecificHeat);
        return Some(given);
    }
    let composition = composition?;
    let [oil_fraction, water_fraction, solids] = composition.fractions();
    let [oil_density, water_density] = composition.reference_densities();
    let rest = composition.reference_density() - oil_fraction * oil_density - water_fraction * water_density;
    let (solids_fraction, solids_density) = if solids > NO_SOLIDS.0 && rest > 0.0 { (solids, rest / solids) } else { NO_SOLIDS };
    let usual = |key| MudSpecificHeat::RECORD.symbol(key).and_then(|symbol| symbol.default);
    Some(rec.take(MudSpecificHeat {
        oil_fraction,
        oil_density,
        oil_specific_heat: usual("oil_specific_heat")?,
        water_fraction,
        water_density,
        water_specific_heat: usual("water_specific_heat")?,
        solids_fraction,
        solids_density,
        solids_specific_heat: usual("solids_specific_heat")?,
    }))
}

/// Temperature of the rock at measured depths that cut a hole into equal lengths. [K]
fn rock(fit: &Fit, hole_depth: f64) -> [f64; STEPS + 1] {
    let well = &fit.well;
    let start = well.elevation + well.water_depth;
    std::array::from_fn(|at| well.geotherm.at(well.path.vertical_depth_at(part(hole_depth, at)), start))
}

/// Measured depth after some of the equal lengths. [m]
fn part(hole_depth: f64, at: usize) -> f64 {
    hole_depth * at as f64 / STEPS as f64
}

impl Make<'_> {
    fn still(&self) -> Column {
        let this = &self.fit.well.sections[self.section];
        let temperatures = rock(self.fit, this.bottom);
        let top = this.managed_pressure.as_ref().map_or(0.0, |managed| managed.still);
        let vertical = std::array::from_fn(|at| self.fit.well.path.vertical_depth_at(part(this.bottom, at)));
        Column::new(this.bottom, vertical, [temperatures; 2], self.composition, [[top, 0.0]; 2])
    }

    fn flowing(&self, hole_depth: f64) -> Option<Column> {
        let circulation = circulation(self, hole_depth, &mut Off)?;
        let this = &self.fit.well.sections[self.section];
        let [inside, outside, bit] = pressure_losses(self, hole_depth, &mut Off);
        let depths: Vec<f64> = (0..=STEPS).map(|at| part(hole_depth, at)).collect();
        let rows = circulation.profile(&depths, &mut Off);
        let vertical = std::array::from_fn(|at| self.fit.well.path.vertical_depth_at(part(hole_depth, at)));
        let temperatures = [std::array::from_fn(|at| rows[at].annulus), std::array::from_fn(|at| rows[at].pipe)];
        let back = this.managed_pressure.as_ref().map_or(0.0, |managed| managed.flowing);
        // Friction adds to the pressure downwards outside, and takes off inside.
        let pressures = [[back, outside], [back + inside + outside + bit, -inside]];
        Some(Column::new(hole_depth, vertical, temperatures, self.composition, pressures))
    }
}

/// Pressure lost in the string, in the annulus and at the bit by the section's own flow. [Pa]
fn pressure_losses<R: Recorder>(make: &Make, hole_depth: f64, rec: &mut R) -> [f64; 3] {
    let this = &make.fit.well.sections[make.section];
    let situation = sweep::situation(make.fit, make.section, Operation::Circulating, hole_depth, hole_depth);
    let (density, flow_rate) = (this.mud.weight, this.drilling.flow_rate);
    let (mut string, mut bit) = (0.0, 0.0);
    let pieces = geometry::string(make.fit, &situation);
    for piece in &pieces {
        let geometry::Pipe::Part(part) = piece.pipe else { continue };
        let loss = inside(part).and_then(|run| make.losses.find(&run));
        string += loss.unwrap_or(0.0) * (piece.bottom - piece.top);
        string += tool_loss(part, Flow { rate: flow_rate, density }, &mut Off).unwrap_or(0.0);
        if let (PartKind::Bit, Some(flow_area)) = (part.kind, part.flow_area) {
            let discharge_coefficient = DISCHARGE_COEFFICIENT;
            bit = BitPressureLoss { density, flow_rate, flow_area, discharge_coefficient }.value();
        }
    }
    let annuli = geometry::annuli(make.fit, &situation, &pieces);
    let loss = |annulus: &geometry::Annulus| make.losses.find(&past(annulus)).unwrap_or(0.0) * annulus.length();
    let annulus = annuli.iter().map(loss).sum();
    rec.given("pressure lost inside the string", string, Kind::Pressure);
    rec.given("pressure lost in the annulus", annulus, Kind::Pressure);
    rec.given("pressure lost at the bit", bit, Kind::Pressure);
    [string, annulus, bit]
}

/// Mean diameters of hole, pipe and bore, by length; `None` for a hole without pipe in it. [m]
fn mean_sizes(make: &Make, hole_depth: f64) -> Option<[f64; 3]> {
    let situation = sweep::situation(make.fit, make.section, Operation::Circulating, hole_depth, hole_depth);
    let string = geometry::string(make.fit, &situation);
    let (mut length, mut sums) = (0.0, [0.0; 2]);
    for annulus in geometry::annuli(make.fit, &situation, &string).iter().filter(|annulus| annulus.pipe_diameter > 0.0) {
        length += annulus.length();
        sums[0] += annulus.hole_diameter * annulus.length();
        sums[1] += annulus.pipe_diameter * annulus.length();
    }
    let (mut bored, mut bores) = (0.0, 0.0);
    for piece in string.iter().filter(|piece| piece.pipe.inner_diameter() > 0.0) {
        bored += piece.bottom - piece.top;
        bores += piece.pipe.inner_diameter() * (piece.bottom - piece.top);
    }
    (length > 0.0 && bored > 0.0).then(|| [sums[0] / length, sums[1] / length, bores / bored])
}

/// Film coefficient of the mud in a passage. [W/(m²·K)]
fn film<R: Recorder>(make: &Make, passage: &Passage, specific_heat: f64, rec: &mut R) -> Option<f64> {
    let this = &make.fit.well.sections[make.section];
    let density = this.mud.weight;
    let velocity = passage.velocity(this.drilling.flow_rate, rec);
    let flow = friction(LossMethod::Generalised, make.mud, passage, Stream { velocity, density }, &mut Off);
    let hydraulic_diameter = passage.width();
    if flow.reynolds <= 0.0 {
        return None;
    }
    rec.given("generalised Reynolds number", flow.reynolds, Kind::Ratio);
    // The viscosity that stands for the mud in that Reynolds number.
    let viscosity = density * velocity * hydraulic_diameter / flow.reynolds;
    rec.given("effective viscosity at the wall", viscosity, Kind::Viscosity);
    let conductivity = this.mud.conductivity;
    let film = Film {
        reynolds_number: flow.reynolds,
        viscosity,
        specific_heat,
        conductivity,
        hydraulic_diameter,
        prandtl_exponent: 0.4,
    };
    Some(film_coefficient(&film, rec))
}

/// Steady circulation at a hole depth, with the section's own flow; `None` when something is not known.
fn circulation<R: Recorder>(make: &Make, hole_depth: f64, rec: &mut R) -> Option<SteadyCirculation> {
    let (well, this) = (&make.fit.well, &make.fit.well.sections[make.section]);
    let inlet_temperature = this.drilling.inlet_temperature?;
    let specific_heat = specific_heat(&this.mud, make.composition, rec)?;
    let [hole_diameter, pipe_diameter, inner_diameter] = mean_sizes(make, hole_depth)?;
    rec.given("mean diameter of the hole", hole_diameter, Kind::Diameter);
    rec.given("mean outside diameter of the string", pipe_diameter, Kind::Diameter);
    rec.given("mean inside diameter of the string", inner_diameter, Kind::Diameter);
    rec.note(|| "film inside the string:".to_owned());
    let inner_film = film(make, &Passage::Bore { inner_diameter }, specific_heat, rec)?;
    rec.note(|| "film in the annulus, on string and wall alike:".to_owned());
    let outer_film = film(make, &Passage::Annulus { hole_diameter, pipe_diameter }, specific_heat, rec)?;
    let steel = PipeHeatTransfer::RECORD.symbol("conductivity").and_then(|symbol| symbol.default)?;
    let pipe_transfer = rec.take(PipeHeatTransfer { pipe_diameter, inner_diameter, inner_film, outer_film, conductivity: steel });
    let heat = &well.heat;
    let (conductivity, density, specific) = (heat.rock.conductivity, heat.rock.density, heat.rock.specific_heat);
    let duration = heat.circulated;
    let dimensionless_time =
        rec.take(DimensionlessTime { conductivity, duration, density, specific_heat: specific, hole_diameter });
    let rock_function = rec.take(RockFunction { dimensionless_time });
    let wall_transfer = rec.take(RockHeatTransfer { face_transfer: outer_film, hole_diameter, rock_function, conductivity });
    let losses = if heat.friction { pressure_losses(make, hole_depth, rec) } else { [0.0; 3] };
    let rock = rock(make.fit, hole_depth);
    let [top_temperature, bottom] = [rock[0], rock[STEPS]];
    rec.given("temperature of the rock at the top", top_temperature, Kind::Temperature);
    rec.given("temperature of the rock at the bottom", bottom, Kind::Temperature);
    Some(SteadyCirculation {
        length: hole_depth,
        hole_diameter,
        pipe_diameter,
        flow_rate: this.drilling.flow_rate,
        density: this.mud.weight,
        specific_heat,
        inlet_temperature,
        top_temperature,
        temperature_gradient: (bottom - top_temperature) / hole_depth,
        pipe_transfer,
        wall_transfer,
        losses,
    })
}
