//! Columns of mud that gives way to pressure and swells with heat, as tables along the hole.

use rigwright_physics::circulating::density::State;
use rigwright_physics::circulating::density::mud::Composition;
use rigwright_physics::{Off, STANDARD_ATMOSPHERE, STANDARD_GRAVITY};

/// Equal lengths into which a hole is cut.
pub const STEPS: usize = 8;

/// Both legs of a circulating well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leg {
    /// Between string and hole.
    Annulus,
    /// Inside the string.
    String,
}

/// A hole at one depth: temperatures, and what the columns down to each depth weigh over the same at surface weight.
#[derive(Clone, Copy, Debug)]
pub struct Column {
    /// Measured depth of the hole. [m]
    hole_depth: f64,
    /// By leg and step. [K]
    temperatures: [[f64; STEPS + 1]; 2],
    /// By leg and step. [-]
    weights: [[f64; STEPS + 1]; 2],
}

impl Column {
    /// From vertical depths and temperatures at the ends of the steps. Pressures are that on top and what friction adds down to the
    /// bottom, by leg. Mud of unknown make keeps its weight, and so does mud in a state whose density nobody knows.
    pub fn new(
        hole_depth: f64,
        vertical: [f64; STEPS + 1],
        temperatures: [[f64; STEPS + 1]; 2],
        composition: Option<&Composition>,
        pressures: [[f64; 2]; 2],
    ) -> Column {
        let weigh = |leg: usize| composition.and_then(|mud| weights(mud, &vertical, &temperatures[leg], pressures[leg]));
        let weights = match (weigh(0), weigh(1)) {
            (Some(annulus), Some(string)) => [annulus, string],
            _ => [[1.0; STEPS + 1]; 2],
        };
        Column { hole_depth, temperatures, weights }
    }

    fn along(&self, table: &[[f64; STEPS + 1]; 2], leg: Leg, share: f64) -> f64 {
        let row = &table[leg as usize];
        let at = (share * STEPS as f64).clamp(0.0, STEPS as f64);
        let below = (at as usize).min(STEPS - 1);
        row[below] + (row[below + 1] - row[below]) * (at - below as f64)
    }
}

/// What the columns down to each depth weigh over the same at surface weight. Each step takes the density at its middle.
fn weights(
    mud: &Composition,
    vertical: &[f64; STEPS + 1],
    temperatures: &[f64; STEPS + 1],
    [top, friction]: [f64; 2],
) -> Option<[f64; STEPS + 1]> {
    let surface = mud.reference_density();
    let density =
        |pressure: f64, temperature: f64| Some(mud.density(State::new(pressure + STANDARD_ATMOSPHERE, temperature)?, &mut Off));
    let mut last = density(top, temperatures[0])?;
    let mut weights = [last / surface; STEPS + 1];
    let mut column = 0.0;
    for at in 0..STEPS {
        let height = vertical[at + 1] - vertical[at];
        let share = (at as f64 + 0.5) / STEPS as f64;
        let pressure = top + friction * share + column + 0.5 * height * last * STANDARD_GRAVITY;
        last = density(pressure, 0.5 * (temperatures[at] + temperatures[at + 1]))?;
        column += last * STANDARD_GRAVITY * height;
        if vertical[at + 1] > 0.0 {
            weights[at + 1] = column / (surface * STANDARD_GRAVITY * vertical[at + 1]);
        }
    }
    Some(weights)
}

/// The columns of one situation.
#[derive(Clone, Copy, Debug)]
pub struct Columns<'a> {
    /// The columns between which it lies.
    columns: &'a [Column],
    /// The part of each.
    parts: [f64; 3],
    hole_depth: f64,
}

impl<'a> Columns<'a> {
    /// Columns at the temperature of the rock.
    pub fn still(column: &'a Column) -> Columns<'a> {
        Columns { columns: std::slice::from_ref(column), parts: [1.0, 0.0, 0.0], hole_depth: column.hole_depth }
    }

    /// Columns in circulation at a hole depth, from those at three: a parabola over them.
    pub fn flowing(columns: &'a [Column; 3], hole_depth: f64) -> Columns<'a> {
        let [a, b, c] = [columns[0].hole_depth, columns[1].hole_depth, columns[2].hole_depth];
        // Above the shallowest of them little happens.
        let x = hole_depth.clamp(a, c);
        let parts = if c - a < 1.0 {
            [0.0, 0.0, 1.0]
        } else {
            [
                (x - b) * (x - c) / ((a - b) * (a - c)),
                (x - a) * (x - c) / ((b - a) * (b - c)),
                (x - a) * (x - b) / ((c - a) * (c - b)),
            ]
        };
        Columns { columns, parts, hole_depth }
    }

    fn read(&self, table: impl Fn(&Column) -> &[[f64; STEPS + 1]; 2], leg: Leg, depth: f64) -> f64 {
        let share = depth / self.hole_depth;
        self.columns.iter().zip(self.parts).map(|(column, part)| part * column.along(table(column), leg, share)).sum()
    }

    /// Temperature of the mud at a measured depth. [K]
    pub fn temperature(&self, leg: Leg, depth: f64) -> f64 {
        self.read(|column| &column.temperatures, leg, depth)
    }

    /// What the column down to a measured depth weighs over the same at surface weight. [-]
    pub fn weight(&self, leg: Leg, depth: f64) -> f64 {
        self.read(|column| &column.weights, leg, depth)
    }
}
