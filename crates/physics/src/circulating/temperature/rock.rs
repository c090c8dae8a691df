//! Rock around the hole that warms or cools: rings that grow outwards, one implicit step at a time.
//!
//! Heat flows towards or away from the hole only. The outermost ring is closed, so that no heat is lost; put it farther
//! away than heat gets: in a month that is 3 m, in a year 12 m.

use std::f64::consts::PI;

/// Rock, as heat sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rock {
    /// Thermal conductivity; shale 1.2 to 1.8, sandstone 2 to 4, salt 5 to 6 are common practice. [W/(m·K)]
    pub conductivity: f64,
    /// Density. [kg/m³]
    pub density: f64,
    /// Specific heat. [J/(kg·K)]
    pub specific_heat: f64,
}

impl Rock {
    /// Base case of Holmes & Swift, J. Pet. Tech. June 1970 (from memory): 1.3 Btu/(h.ft.°F), 165 lb/ft³, 0.2 Btu/(lb.°F).
    pub const TYPICAL: Rock = Rock { conductivity: 2.25, density: 2643.0, specific_heat: 837.0 };
}

/// How the rock is cut into rings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rings {
    /// How many; at least two.
    pub count: usize,
    /// Outer radius of the last. [m]
    pub outer_radius: f64,
}

impl Rings {
    /// Twenty-four rings to 20 m: within 1 % of the exact answer from an hour on.
    pub const USUAL: Rings = Rings { count: 24, outer_radius: 20.0 };
}

/// Rings of rock around a stretch of hole, per length of it.
#[derive(Clone, Debug)]
pub struct RingedRock {
    /// Heat that warms a ring by a kelvin. [J/(m·K)]
    capacities: Vec<f64>,
    /// Heat flow from ring to ring per kelvin; the last ring is closed. [W/(m·K)]
    conductances: Vec<f64>,
    /// Heat flow from the rock face to the middle of the first ring per kelvin. [W/(m·K)]
    face: f64,
    /// Temperatures of the rings. [K]
    temperatures: Vec<f64>,
}

/// Heat that rock takes in a step, as far as the temperature beside it is still unknown.
#[derive(Clone, Debug)]
pub(super) struct Response {
    /// Heat flow into the rock per kelvin of the mud's temperature. [W/(m·K)]
    pub slope: f64,
    /// Heat flow into the rock at nought kelvin. [W/m]
    pub offset: f64,
    /// Temperature of each ring as a share of the one before it plus a rest.
    chain: Vec<[f64; 2]>,
}

impl RingedRock {
    /// Rock of one temperature around a hole.
    ///
    /// `None` when a figure is not positive, or the outer radius is not outside the hole. [m], [K]
    pub fn new(rock: &Rock, rings: Rings, hole_diameter: f64, temperature: f64) -> Option<RingedRock> {
        let radius = 0.5 * hole_diameter;
        let positive = [rock.conductivity, rock.density, rock.specific_heat, radius].iter().all(|x| *x > 0.0 && x.is_finite());
        if !positive || rings.count < 2 || !(rings.outer_radius > radius && rings.outer_radius.is_finite()) {
            return None;
        }
        let ratio = (rings.outer_radius / radius).powf(1.0 / rings.count as f64);
        let inner = |ring: usize| radius * ratio.powi(ring as i32);
        let capacity = |ring: usize| rock.density * rock.specific_heat * PI * inner(ring) * inner(ring) * (ratio * ratio - 1.0);
        // Every middle lies at the geometric mean, so that neighbours are one ratio apart.
        let between = 2.0 * PI * rock.conductivity / ratio.ln();
        let mut conductances = vec![between; rings.count - 1];
        conductances.push(0.0);
        Some(RingedRock {
            capacities: (0..rings.count).map(capacity).collect(),
            conductances,
            face: 2.0 * between,
            temperatures: vec![temperature; rings.count],
        })
    }

    /// Temperatures of the rings, from the hole outwards. [K]
    pub fn temperatures(&self) -> &[f64] {
        &self.temperatures
    }

    /// Temperature of the rock face while a heat flow enters it. [W/m], [K]
    pub fn face_temperature(&self, heat_flow: f64) -> f64 {
        self.temperatures[0] + heat_flow / self.face
    }

    /// Heat in the rock above nought kelvin. [J/m]
    pub fn heat(&self) -> f64 {
        self.capacities.iter().zip(&self.temperatures).map(|(capacity, temperature)| capacity * temperature).sum()
    }

    /// Each ring after an implicit step as a share of the temperature before it plus a rest, from the hole outwards.
    /// `coupling` is the heat flow from the mud to the first ring per kelvin. [W/(m·K)], [s]
    fn chain(&self, coupling: f64, duration: f64) -> Vec<[f64; 2]> {
        let mut chain = vec![[0.0, 0.0]; self.capacities.len()];
        // From outside in: the ring outside is known as a share of this one.
        let [mut share, mut rest] = [0.0, 0.0];
        for (ring, link) in chain.iter_mut().enumerate().rev() {
            let inside = if ring == 0 { coupling } else { self.conductances[ring - 1] };
            let outside = self.conductances[ring];
            let storage = self.capacities[ring] / duration;
            let sum = storage + inside + outside * (1.0 - share);
            let known = storage * self.temperatures[ring] + outside * rest;
            [share, rest] = [inside / sum, known / sum];
            *link = [share, rest];
        }
        chain
    }

    /// What the rock does in an implicit step, beside mud that passes heat to its face. `film` is per kelvin. [W/(m·K)], [s]
    pub(super) fn response(&self, film: f64, duration: f64) -> Response {
        let coupling = 1.0 / (1.0 / film + 1.0 / self.face);
        let chain = self.chain(coupling, duration);
        let [share, rest] = chain[0];
        Response { slope: coupling * (1.0 - share), offset: -coupling * rest, chain }
    }

    /// Ends the step, now that the temperature of the mud is known. [K]
    pub(super) fn settle(&mut self, response: &Response, mud: f64) {
        self.follow(&response.chain, mud);
    }

    /// An implicit step with a given heat flow into the face. [W/m], [s]
    pub fn heat_up(&mut self, heat_flow: f64, duration: f64) {
        self.temperatures[0] += heat_flow * duration / self.capacities[0];
        let chain = self.chain(0.0, duration);
        self.follow(&chain, 0.0);
    }

    fn follow(&mut self, chain: &[[f64; 2]], before: f64) {
        let mut before = before;
        for (temperature, [share, rest]) in self.temperatures.iter_mut().zip(chain) {
            *temperature = share * before + rest;
            before = *temperature;
        }
    }
}
