//! Temperatures in a well that circulates, step by step or once and for all.
//!
//! The hole is cut into cells along its length. In each the mud of the pipe gives heat to that of the annulus, that to
//! the rock, and the rock passes it on in rings. A step is implicit and is solved at once, without iteration: from the bit
//! upwards the annulus is known as a share of the pipe plus a rest, then from the top downwards the pipe is known. Each
//! cell takes a mean between what enters and what leaves that suits a stream which relaxes, so that steps of any length and
//! flows of any size, nought included, keep all temperatures between those of their surroundings.
//!
//! Mud goes down the pipe. The heat that steel holds is left out: it is about a tenth of that of the mud.

use super::rock::{Response, RingedRock, Rings, Rock};
use crate::circulating::passage::Passage;
use crate::{Kind, Recorder};
use std::f64::consts::PI;

/// What is outside the annulus.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outside {
    /// Rock, which warms and cools.
    Rock(Rock),
    /// Something that keeps its temperature: sea around a riser, or rock of the steady state.
    Fixed,
}

/// A cell of the hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatCell {
    /// Length along the hole. [m]
    pub length: f64,
    /// Temperature of rock or sea, undisturbed, in the middle. [K]
    pub undisturbed: f64,
    /// Diameter of the hole, or of the outer wall of a riser. [m]
    pub hole_diameter: f64,
    /// Outside diameter of the pipe. [m]
    pub pipe_diameter: f64,
    /// Inside diameter of the pipe. [m]
    pub inner_diameter: f64,
    /// Heat transfer through the pipe, on its outside area. [W/(m²·K)]
    pub pipe_transfer: f64,
    /// Heat transfer from the mud in the annulus to the face of the rock: film, casing, cement. [W/(m²·K)]
    pub face_transfer: f64,
    /// Pressure lost in the pipe per length. [Pa/m]
    pub pipe_loss: f64,
    /// Pressure lost in the annulus per length. [Pa/m]
    pub annulus_loss: f64,
    /// What is outside.
    pub outside: Outside,
}

/// A well as heat sees it.
#[derive(Clone, Debug)]
pub struct HeatWell {
    /// Cells from the top down.
    pub cells: Vec<HeatCell>,
    /// Mud weight. [kg/m³]
    pub density: f64,
    /// Specific heat of the mud. [J/(kg·K)]
    pub specific_heat: f64,
    /// How rock is cut into rings.
    pub rings: Rings,
}

/// Pumping, or not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pumping {
    /// Flow rate; nought when the pumps are off. [m³/s]
    pub flow_rate: f64,
    /// Temperature of the mud pumped in. [K]
    pub inlet_temperature: f64,
    /// Pressure lost at the bit. [Pa]
    pub bit_loss: f64,
}

/// Temperatures of a cell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CellTemperatures {
    /// Length of hole above its middle. [m]
    pub depth: f64,
    /// Mean in the pipe. [K]
    pub pipe: f64,
    /// Mean in the annulus. [K]
    pub annulus: f64,
    /// Of the rock around the hole, in the first ring; of what is fixed. [K]
    pub outside: f64,
}

/// What a step did.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatStep {
    /// Temperature of the mud that leaves the bit. [K]
    pub bit_temperature: f64,
    /// Temperature of the mud that comes out of the annulus. [K]
    pub outlet_temperature: f64,
    /// Heat that came out of rock and sea. [W]
    pub from_outside: f64,
    /// Heat of friction. [W]
    pub from_friction: f64,
    /// Heat that the mud in the well took up. [W]
    pub stored: f64,
    /// Heat that the mud carried out less what it brought in. [W]
    pub carried_out: f64,
}

/// Temperatures in a well, and how they change.
#[derive(Clone, Debug)]
pub struct WellHeat {
    well: HeatWell,
    pipe: Vec<f64>,
    annulus: Vec<f64>,
    rock: Vec<Option<RingedRock>>,
}

/// The heat balance of a cell in a step: everything as heat flow over its length.
struct Balance {
    /// Heat that the flow carries per kelvin. [W/K]
    carried: f64,
    /// Heat through the pipe per kelvin. [W/K]
    exchange: f64,
    /// Heat that the mud stores per kelvin, of pipe and annulus. [W/K]
    storage: [f64; 2],
    /// Heat to the outside per kelvin, and at nought kelvin. [W/K], [W]
    outward: [f64; 2],
    /// Heat of friction, in pipe and annulus. [W]
    friction: [f64; 2],
    /// Shares of what leaves in the mean of the cell, of pipe and annulus.
    weight: [f64; 2],
}

/// Share of what leaves a cell in its mean, by how much heat it gives and stores per heat that it carries.
///
/// A stream that relaxes by the exponent x on its way has the mean 1/(1 - exp(-x)) - 1/x. What the mud stores does not bend
/// its course; it only asks for enough of what leaves that nothing which enters counts backwards: 1 - 1/x.
fn leaving_share(gives: f64, stores: f64) -> f64 {
    let mean = if gives < 1e-3 {
        // The difference of two large numbers, as a series.
        0.5 + gives / 12.0
    } else {
        -1.0 / (-gives).exp_m1() - 1.0 / gives
    };
    mean.max(1.0 - 1.0 / (gives + stores))
}

/// Pipe temperature of a cell's lower end and annulus temperature of its upper end, each as a share of the pipe
/// temperature at its upper end plus a rest.
#[derive(Clone, Copy)]
struct Link {
    pipe: [f64; 2],
    annulus: [f64; 2],
}

impl Balance {
    /// With the annulus at the lower end as `below` = share and rest of the pipe there.
    fn link(&self, means: [f64; 2], below: [f64; 2]) -> Link {
        let Balance { carried, exchange, .. } = *self;
        let [p, a] = self.weight;
        let [share, rest] = below;
        let of_pipe = self.storage[0] + exchange;
        let of_annulus = self.storage[1] + exchange + self.outward[0];
        // Unknown: pipe below x and annulus above y; known: pipe above, by its share (u) and the rest (v).
        let annulus_in = carried - of_annulus * (1.0 - a);
        let m = [
            [carried + of_pipe * p - exchange * (1.0 - a) * share, -exchange * a],
            [-exchange * p - annulus_in * share, carried + of_annulus * a],
        ];
        let u = [carried - of_pipe * (1.0 - p), exchange * (1.0 - p)];
        let v = [
            self.storage[0] * means[0] + self.friction[0] + exchange * (1.0 - a) * rest,
            self.storage[1] * means[1] + self.friction[1] - self.outward[1] + annulus_in * rest,
        ];
        let determinant = m[0][0] * m[1][1] - m[0][1] * m[1][0];
        let solve = |side: [f64; 2]| {
            [(side[0] * m[1][1] - m[0][1] * side[1]) / determinant, (m[0][0] * side[1] - side[0] * m[1][0]) / determinant]
        };
        let ([x_u, y_u], [x_v, y_v]) = (solve(u), solve(v));
        Link { pipe: [x_u, x_v], annulus: [y_u, y_v] }
    }
}

impl HeatWell {
    /// Whether every figure makes sense: lengths, diameters and transfers positive, the pipe inside the hole.
    pub fn is_sane(&self) -> bool {
        let positive = |values: &[f64]| values.iter().all(|value| *value > 0.0 && value.is_finite());
        let cell = |cell: &HeatCell| {
            positive(&[cell.length, cell.undisturbed, cell.inner_diameter, cell.pipe_transfer, cell.face_transfer])
                && cell.pipe_diameter >= cell.inner_diameter
                && cell.hole_diameter > cell.pipe_diameter
                && cell.hole_diameter.is_finite()
                && cell.pipe_loss.is_finite()
                && cell.annulus_loss.is_finite()
        };
        positive(&[self.density, self.specific_heat]) && !self.cells.is_empty() && self.cells.iter().all(cell)
    }

    /// Steady temperatures, with what is outside at its undisturbed temperature beside the face.
    ///
    /// `None` for figures that make no sense or for no flow.
    pub fn steady<R: Recorder>(&self, pumping: &Pumping, rec: &mut R) -> Option<(Vec<CellTemperatures>, HeatStep)> {
        if !(self.is_sane() && pumping.is_sane() && pumping.flow_rate > 0.0) {
            return None;
        }
        let fixed = |cell: &HeatCell| HeatCell { outside: Outside::Fixed, ..*cell };
        let well = HeatWell { cells: self.cells.iter().map(fixed).collect(), ..self.clone() };
        let mut heat = WellHeat::at_rest(well)?;
        let step = heat.advance(pumping, None);
        let profile = heat.profile();
        note_profile(&profile, rec);
        Some((profile, step))
    }
}

impl Pumping {
    fn is_sane(&self) -> bool {
        self.flow_rate >= 0.0
            && self.flow_rate.is_finite()
            && self.inlet_temperature > 0.0
            && self.inlet_temperature.is_finite()
            && self.bit_loss.is_finite()
    }
}

const PROFILE: &[(&str, Kind)] = &[
    ("depth", Kind::Depth),
    ("in the pipe", Kind::Temperature),
    ("in the annulus", Kind::Temperature),
    ("rock beside", Kind::Temperature),
];

fn note_profile<R: Recorder>(profile: &[CellTemperatures], rec: &mut R) {
    rec.note(|| "heat balance of each cell solved at once; heat along steel and rock left out".to_owned());
    rec.table("temperatures by cell", PROFILE, || {
        profile.iter().map(|cell| vec![cell.depth, cell.pipe, cell.annulus, cell.outside]).collect()
    });
}

impl WellHeat {
    /// A well that has stood until mud and rock have the same temperature. `None` for figures that make no sense.
    pub fn at_rest(well: HeatWell) -> Option<WellHeat> {
        if !well.is_sane() {
            return None;
        }
        let rock = |cell: &HeatCell| match cell.outside {
            Outside::Fixed => Some(None),
            Outside::Rock(rock) => RingedRock::new(&rock, well.rings, cell.hole_diameter, cell.undisturbed).map(Some),
        };
        let rock = well.cells.iter().map(rock).collect::<Option<Vec<_>>>()?;
        let still: Vec<f64> = well.cells.iter().map(|cell| cell.undisturbed).collect();
        Some(WellHeat { well, pipe: still.clone(), annulus: still, rock })
    }

    /// One implicit step. `None` for a flow, temperature or duration that makes no sense. [s]
    pub fn step(&mut self, pumping: &Pumping, duration: f64) -> Option<HeatStep> {
        let sane = pumping.is_sane() && duration > 0.0 && duration.is_finite();
        sane.then(|| self.advance(pumping, Some(duration)))
    }

    /// Like steps until a time has gone by; the last step's account. `None` as for [`step`](Self::step). [s]
    pub fn run<R: Recorder>(&mut self, pumping: &Pumping, duration: f64, steps: usize, rec: &mut R) -> Option<HeatStep> {
        let mut last = None;
        for _ in 0..steps {
            last = Some(self.step(pumping, duration / steps as f64)?);
        }
        note_profile(&self.profile(), rec);
        last
    }

    /// Temperatures by cell, from the top down.
    pub fn profile(&self) -> Vec<CellTemperatures> {
        let mut depth = 0.0;
        let cells = self.well.cells.iter().enumerate();
        cells
            .map(|(at, cell)| {
                let middle = depth + 0.5 * cell.length;
                depth += cell.length;
                let outside = self.rock[at].as_ref().map_or(cell.undisturbed, |rock| rock.temperatures()[0]);
                CellTemperatures { depth: middle, pipe: self.pipe[at], annulus: self.annulus[at], outside }
            })
            .collect()
    }

    /// A step of a duration, or the steady state without one.
    fn advance(&mut self, pumping: &Pumping, duration: Option<f64>) -> HeatStep {
        let HeatWell { density, specific_heat, .. } = self.well;
        let carried = pumping.flow_rate * density * specific_heat;
        let responses: Vec<Option<Response>> = (0..self.well.cells.len()).map(|at| self.response(at, duration)).collect();
        let balances: Vec<Balance> =
            (0..self.well.cells.len()).map(|at| self.balance(at, &responses[at], pumping.flow_rate, duration)).collect();
        let bit_heating = pumping.bit_loss / (density * specific_heat);
        let at_bit = [1.0, bit_heating];
        let mut below = at_bit;
        let mut links = Vec::with_capacity(balances.len());
        for (at, balance) in balances.iter().enumerate().rev() {
            let link = balance.link([self.pipe[at], self.annulus[at]], below);
            below = link.annulus;
            links.push(link);
        }
        links.reverse();
        let mut pipe_in = pumping.inlet_temperature;
        let mut annulus_out = below[0] * pipe_in + below[1];
        let outlet_temperature = annulus_out;
        let (mut from_outside, mut stored) = (0.0, 0.0);
        for (at, balance) in balances.iter().enumerate() {
            let pipe_out = links[at].pipe[0] * pipe_in + links[at].pipe[1];
            let lower = links.get(at + 1).map_or(at_bit, |link| link.annulus);
            let annulus_in = lower[0] * pipe_out + lower[1];
            let mean = |share: f64, leaves: f64, enters: f64| share * leaves + (1.0 - share) * enters;
            let pipe = mean(balance.weight[0], pipe_out, pipe_in);
            let annulus = mean(balance.weight[1], annulus_out, annulus_in);
            from_outside -= balance.outward[0] * annulus + balance.outward[1];
            stored += balance.storage[0] * (pipe - self.pipe[at]) + balance.storage[1] * (annulus - self.annulus[at]);
            if let (Some(rock), Some(response)) = (&mut self.rock[at], &responses[at]) {
                rock.settle(response, annulus);
            }
            (self.pipe[at], self.annulus[at]) = (pipe, annulus);
            (pipe_in, annulus_out) = (pipe_out, annulus_in);
        }
        let along: f64 = balances.iter().map(|balance| balance.friction.iter().sum::<f64>()).sum();
        HeatStep {
            bit_temperature: annulus_out,
            outlet_temperature,
            from_outside,
            from_friction: along + carried * bit_heating,
            stored,
            carried_out: carried * (outlet_temperature - pumping.inlet_temperature),
        }
    }

    fn response(&self, at: usize, duration: Option<f64>) -> Option<Response> {
        let cell = &self.well.cells[at];
        let film = PI * cell.hole_diameter * cell.face_transfer;
        Some(self.rock[at].as_ref()?.response(film, duration?))
    }

    fn balance(&self, at: usize, response: &Option<Response>, flow_rate: f64, duration: Option<f64>) -> Balance {
        let HeatWell { density, specific_heat, ref cells, .. } = self.well;
        let cell = &cells[at];
        let carried = flow_rate * density * specific_heat;
        let exchange = PI * cell.pipe_diameter * cell.pipe_transfer * cell.length;
        let Passages { bore, annulus } = Passages::of(cell);
        let storage =
            [bore, annulus].map(|area| duration.map_or(0.0, |time| density * specific_heat * area * cell.length / time));
        let film = PI * cell.hole_diameter * cell.face_transfer;
        let per_length = response.as_ref().map_or([film, -film * cell.undisturbed], |it| [it.slope, it.offset]);
        let outward = per_length.map(|value| value * cell.length);
        let gives = [exchange, exchange + outward[0]];
        Balance {
            carried,
            exchange,
            storage,
            outward,
            friction: [cell.pipe_loss, cell.annulus_loss].map(|loss| loss * flow_rate * cell.length),
            // Without flow both are infinite, and the cell has one temperature.
            weight: [0, 1].map(|way| leaving_share(gives[way] / carried, storage[way] / carried)),
        }
    }
}

/// Flow areas of a cell. [m²]
struct Passages {
    bore: f64,
    annulus: f64,
}

impl Passages {
    fn of(cell: &HeatCell) -> Passages {
        let HeatCell { hole_diameter, pipe_diameter, inner_diameter, .. } = *cell;
        Passages {
            bore: Passage::Bore { inner_diameter }.area(),
            annulus: Passage::Annulus { hole_diameter, pipe_diameter }.area(),
        }
    }
}
