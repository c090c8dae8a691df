//! The fastest speeds at which pipe and casing may be moved: the ones at which swab or surge takes all of the room that still mud leaves
//! in the window, wanted margins kept.
//!
//! Swab and surge at a depth run straight with the bit depth between the depths at which a change of string passes a change of hole or
//! that depth, so that the slowest safe speed of a section is found on those bit depths alone. Mud that was read at several temperatures
//! bends those lines a little: each piece of annulus has the temperature of its middle.

mod shared;

use crate::fields::flow::Flow;
use crate::fields::open_hole::Point;
use crate::fields::rheology::mud_at;
use crate::fields::surge::{Moved, moved, trip};
use crate::{Answer, Figure, Scene, sweep};
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::circulating::friction::FrictionLoss;
use rigwright_physics::circulating::trip::Trip;
use rigwright_physics::circulating::viscometer::MudRheology;
use rigwright_physics::{Formula, Off, Recorder, Root, numerics};
use rigwright_units::Kind;
use rigwright_well::{Hung, Operation, Situation};
use std::ops::ControlFlow;

/// No crew moves pipe slower: below it no speed is safe. [m/s]
const SLOWEST: f64 = 0.001;
/// No crew moves pipe faster: a safe speed of this is no bound. [m/s]
pub const FASTEST: f64 = 5.0;

/// How much the safe speed of one bit depth is thought to differ from that of the next: a start for the search. [-]
const NEAR: f64 = 0.03;

/// A kind of trip with the names of its figures.
struct TripKind {
    operation: Operation,
    /// With the flow of drilling going round meanwhile.
    pumping: bool,
    fastest: &'static str,
    bit_depth: &'static str,
    weakest: &'static str,
}

impl TripKind {
    /// What is done, and the flow that is pumped meanwhile. [m³/s]
    fn moves(&self, scene: &Scene) -> (Operation, f64) {
        (self.operation, if self.pumping { scene.section().drilling.flow_rate } else { 0.0 })
    }
}

const TRIPS: [TripKind; 4] = [
    TripKind {
        operation: Operation::PullingOut,
        pumping: false,
        fastest: "fastest pulling out",
        bit_depth: "bit depth that asks for it, pulling out",
        weakest: "weakest depth, pulling out",
    },
    TripKind {
        operation: Operation::RunningIn,
        pumping: false,
        fastest: "fastest running in",
        bit_depth: "bit depth that asks for it, running in",
        weakest: "weakest depth, running in",
    },
    TripKind {
        operation: Operation::RunningIn,
        pumping: true,
        fastest: "fastest running in, pumping",
        bit_depth: "bit depth that asks for it, pumping",
        weakest: "weakest depth, pumping",
    },
    TripKind {
        operation: Operation::RunningCasing,
        pumping: false,
        fastest: "fastest running casing",
        bit_depth: "shoe depth that asks for it, running casing",
        weakest: "weakest depth, running casing",
    },
];

/// How fast pipe and casing may be moved.
pub(super) fn safe_speed<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.prepared_flow().mud.is_none() {
        return Answer::Missing(vec!["section[].mud.readings"]);
    }
    let points = scene.prepared_flow().open_hole.points();
    if points.is_empty() {
        return Answer::DoesNotArise("no open hole");
    }
    if points.iter().any(|point| point.fracture.is_none()) {
        return Answer::Missing(vec!["formation[].fracture"]);
    }
    let mut figures = Vec::new();
    for kind in &TRIPS {
        let hung = if kind.operation == Operation::RunningCasing { Hung::Casing } else { Hung::DrillString };
        let depths = sweep::turning_depths(scene.fit(), scene.situation.section, hung, points.iter().map(|point| point.depth));
        let trips = Trips::new(scene, kind.moves(scene), &depths);
        let Some(slowest) = trips.slowest() else { continue };
        figures.push(Figure { name: kind.fastest, value: slowest.speed, kind: Kind::Speed });
        figures.push(Figure { name: kind.bit_depth, value: slowest.bit_depth, kind: Kind::Depth });
        figures.push(Figure { name: kind.weakest, value: slowest.weakest, kind: Kind::Depth });
        if R::ON {
            trips.show(kind, &slowest, rec);
        }
    }
    Answer::Told(figures)
}

/// The speed that swab or surge leaves at each of some bit depths of a trip, no faster than wanted and nought where none
/// is safe; `None` where the mud or the window is not known. [m/s]
pub(crate) fn slowed(scene: &Scene, operation: Operation, depths: &[f64], wanted: f64) -> Option<Vec<f64>> {
    let points = scene.prepared_flow().open_hole.points();
    scene.prepared_flow().mud.as_ref()?;
    if operation != Operation::PullingOut && points.iter().any(|point| point.fracture.is_none()) {
        return None;
    }
    let hung = if operation == Operation::RunningCasing { Hung::Casing } else { Hung::DrillString };
    let turning = sweep::turning_depths(scene.fit(), scene.situation.section, hung, points.iter().map(|point| point.depth));
    let trips = Trips::new(scene, (operation, 0.0), &turning);
    // Most trips are safe at the speed wanted everywhere, which one look tells.
    if trips.tightest(&trips.bits, wanted).2 >= 0.0 {
        return Some(vec![wanted; depths.len()]);
    }
    let trips = Trips::new(scene, (operation, 0.0), depths);
    if shared::runs_smoothly(scene.prepared_flow().method) {
        return Some(shared::each(&trips, wanted));
    }
    Some(trips.each(wanted).map(|safe| safe.map_or(wanted, |safe| safe.speed)).collect())
}

/// What moving the pipe comes to with the bit at one depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct MovedAt {
    /// Measured depth of the bit, or of the shoe of casing on its way in. [m]
    pub(crate) bit_depth: f64,
    /// Fastest mean speed that keeps the margins everywhere. [m/s]
    pub(crate) fastest: f64,
    /// Measured depth that comes nearest to its limit at the planned speed. [m]
    pub(crate) weakest: f64,
    /// Swab or surge there at the planned speed. [Pa]
    pub(crate) change: f64,
    /// What is left there of the room of still mud, wanted margin taken off. [Pa]
    pub(crate) left: f64,
}

/// What moving the pipe at a speed comes to at several bit depths, ascending; or the entry that is missing. Empty where
/// no hole is open.
pub(crate) fn moved_at(scene: &Scene, operation: Operation, depths: &[f64], speed: f64) -> Result<Vec<MovedAt>, &'static str> {
    let points = scene.prepared_flow().open_hole.points();
    if scene.prepared_flow().mud.is_none() {
        return Err("section[].mud.readings");
    }
    if operation != Operation::PullingOut && points.iter().any(|point| point.fracture.is_none()) {
        return Err("formation[].fracture");
    }
    let trips = Trips::new(scene, (operation, 0.0), depths);
    if trips.rooms.is_empty() {
        return Ok(Vec::new());
    }
    let at = |(bit, safe): (&Bit, Option<Safe>)| {
        let fastest = safe?.speed;
        let (bit_depth, weakest, left) = trips.tightest(std::slice::from_ref(bit), speed);
        let room = trips.rooms.iter().filter(|(depth, _)| (depth - weakest).abs() < 1e-9);
        let room = room.map(|(_, room)| *room).fold(f64::INFINITY, f64::min);
        Some(MovedAt { bit_depth, fastest, weakest, change: room - left, left })
    };
    Ok(trips.bits.iter().zip(trips.each(FASTEST)).filter_map(at).collect())
}

/// The safe speed and where it bites.
#[derive(Clone, Copy)]
struct Safe {
    speed: f64,
    bit_depth: f64,
    weakest: f64,
}

/// What a kind of trip may cost at every depth, and what it costs by speed.
struct Trips<'a, 'b> {
    scene: &'a Scene<'b>,
    /// What is pumped meanwhile. [m³/s]
    pumped: f64,
    /// Depths of open hole, ascending, with the pressure that still mud leaves there, margins taken off. [m, Pa]
    rooms: Vec<(f64, f64)>,
    /// Pipe that meets a hole anywhere, in mud of a node of temperature.
    rings: Vec<(Moved, usize, &'a MudRheology)>,
    bits: Vec<Bit>,
}

/// A bit depth with the annuli above it, from the top down.
struct Bit {
    depth: f64,
    pieces: Vec<Passed>,
}

/// A piece of annulus that the mud passes.
struct Passed {
    moved: Moved,
    /// Its rings at the next lower and the next higher temperature of the mud.
    rings: [usize; 2],
    /// How far it is from the lower one. [-]
    share: f64,
    top: f64,
    bottom: f64,
}

impl<'a, 'b> Trips<'a, 'b> {
    fn new(scene: &'a Scene<'b>, (operation, pumped): (Operation, f64), depths: &[f64]) -> Trips<'a, 'b> {
        let mut rings: Vec<(Moved, usize, &'a MudRheology)> = Vec::new();
        let mut bits = Vec::with_capacity(depths.len());
        for depth in depths {
            let there = Scene::new(scene.basis, situation(scene, operation, *depth));
            let mut pieces = Vec::with_capacity(there.annuli().len());
            for annulus in there.annuli().iter().rev() {
                let Some(moved) = moved(annulus, *depth) else { continue };
                let Some(mud) = mud_at(scene, there.situation, middle(annulus.top, annulus.bottom)) else { continue };
                // Most pieces have the rings of those that stand there with the bit at the last depth.
                let last = bits.last().and_then(|bit: &Bit| bit.pieces.get(pieces.len())).map(|piece: &Passed| piece.rings);
                let mut ring = |at: usize| {
                    let same = |ring: &(Moved, usize, &MudRheology)| ring.1 == mud.nodes[at] && ring.0.meets(&moved);
                    let last = last.map(|last| last[at]).filter(|last| same(&rings[*last]));
                    last.or_else(|| rings.iter().position(same)).unwrap_or_else(|| {
                        rings.push((moved, mud.nodes[at], mud.curves[at]));
                        rings.len() - 1
                    })
                };
                let low = ring(0);
                let high = if mud.share > 0.0 { ring(1) } else { low };
                let (top, bottom) = (annulus.top, annulus.bottom);
                pieces.push(Passed { moved, rings: [low, high], share: mud.share, top, bottom });
            }
            bits.push(Bit { depth: *depth, pieces });
        }
        // The same trip without speed: still mud with the heat that a trip leaves it.
        let still = Situation { pipe_speed: 0.0, ..situation(scene, operation, scene.section().bottom) };
        let still = Scene::new(scene.basis, still);
        let flow = still.flow(&mut Off);
        let points = scene.prepared_flow().open_hole.points().iter();
        let rooms = points.filter_map(|point| Some((point.depth, room(scene, flow, operation, point)?))).collect();
        Trips { scene, pumped, rooms, rings, bits }
    }

    /// The slowest of the safe speeds over the bit depths; `None` without bit depths.
    fn slowest(&self) -> Option<Safe> {
        self.safe(&self.bits, FASTEST, None)
    }

    /// The safe speed of each bit depth by itself: each search starts at what was found for the last.
    fn each(&self, most: f64) -> impl Iterator<Item = Option<Safe>> {
        let mut last = None;
        self.bits.iter().map(move |bit| {
            let safe = self.safe(std::slice::from_ref(bit), most, last);
            last = safe.map(|safe| safe.speed);
            safe
        })
    }

    /// The largest speed, no larger than `most`, at which every depth keeps its margin at all of some bit depths; looked for first
    /// near a speed that may be it. What is left falls as the speed grows.
    fn safe(&self, bits: &[Bit], most: f64, near: Option<f64>) -> Option<Safe> {
        bits.first()?;
        let left = |speed: f64| self.tightest(bits, speed).2;
        let least = SLOWEST.min(most);
        let around = |speed: f64| {
            let ends = [(1.0 - NEAR) * speed, (1.0 + NEAR) * speed].map(|end| (end, left(end)));
            (ends[0].1 >= 0.0 && ends[1].1 < 0.0).then_some(ends)
        };
        let inside = near.filter(|near| (1.0 - NEAR) * near > least && (1.0 + NEAR) * near < most);
        let anywhere = || {
            let at_most = left(most);
            if at_most >= 0.0 {
                return most;
            }
            let at_least = left(least);
            let ends = [(least, at_least), (most, at_most)];
            if at_least < 0.0 { 0.0 } else { numerics::root_between(left, ends).unwrap_or(0.0) }
        };
        let found = inside.and_then(around).and_then(|ends| numerics::root_between(left, ends));
        let speed = found.unwrap_or_else(anywhere);
        let (bit_depth, weakest, _) = self.tightest(bits, speed.max(least));
        Some(Safe { speed, bit_depth, weakest })
    }

    /// Bit depth, weakest depth and the pressure left there at a speed. [m, m, Pa]
    fn tightest(&self, bits: &[Bit], speed: f64) -> (f64, f64, f64) {
        let trip = trip(self.scene, (speed, self.pumped), &mut Off);
        // A ring is worked out once, and only when one of these bit depths has it.
        let mut gradients: Vec<Option<f64>> = vec![None; self.rings.len()];
        let mut gradient = |ring: usize| *gradients[ring].get_or_insert_with(|| self.gradient(ring, &trip));
        let mut tightest = (0.0, 0.0, f64::INFINITY);
        for bit in bits {
            let _ = self.left(bit, &mut gradient, |depth, left| {
                if left < tightest.2 {
                    tightest = (bit.depth, depth, left);
                }
                ControlFlow::Continue(())
            });
        }
        tightest
    }

    /// Swab or surge of a ring per length. [Pa/m]
    fn gradient(&self, ring: usize, trip: &Trip) -> f64 {
        let (moved, _, mud) = &self.rings[ring];
        moved.gradient(mud, trip, &mut Off)
    }

    /// Tells what is left at each depth of open hole, from the top down, of what each ring costs per length, as long as it is told to
    /// go on. [m, Pa]
    fn left(
        &self,
        bit: &Bit,
        mut gradient: impl FnMut(usize) -> f64,
        mut tell: impl FnMut(f64, f64) -> ControlFlow<()>,
    ) -> ControlFlow<()> {
        // Pieces and depths both run downwards: what is passed whole is added up once.
        let (mut whole, mut next) = (0.0, 0);
        for (depth, room) in &self.rooms {
            let mut cost = whole;
            while let Some(piece) = bit.pieces.get(next).filter(|piece| piece.top < *depth) {
                let [low, high] = piece.rings.map(&mut gradient);
                cost = whole + (low + (high - low) * piece.share) * (piece.bottom.min(*depth) - piece.top);
                if piece.bottom > *depth {
                    break;
                }
                (whole, next) = (cost, next + 1);
            }
            tell(*depth, room - cost)?;
        }
        ControlFlow::Continue(())
    }

    fn show<R: Recorder>(&self, kind: &TripKind, slowest: &Safe, rec: &mut R) {
        rec.heading(kind.fastest);
        rec.given("bit depth", slowest.bit_depth, Kind::Depth);
        rec.given("weakest depth", slowest.weakest, Kind::Depth);
        rec.note(|| "Swab or surge is that of the peak speed within a stand; the speeds told are means over it.".to_owned());
        let Some(bit) = self.bits.iter().find(|bit| (bit.depth - slowest.bit_depth).abs() < 1e-9) else { return };
        let mut cost = 0.0;
        let trip = trip(self.scene, (slowest.speed.max(SLOWEST), self.pumped), rec);
        for piece in bit.pieces.iter().filter(|piece| piece.top < slowest.weakest) {
            let length = piece.bottom.min(slowest.weakest) - piece.top;
            let moves = situation(self.scene, kind.operation, bit.depth);
            let Some(mud) = mud_at(self.scene, moves, middle(piece.top, piece.bottom)) else { continue };
            rec.stretch(|| "annulus".to_owned(), piece.top, piece.top + length);
            let gradient = piece.moved.gradient_in(&mud, &trip, rec);
            cost += rec.take(FrictionLoss { gradient, length });
        }
        let room = self.rooms.iter().find(|(depth, _)| (depth - slowest.weakest).abs() < 1e-9).map_or(0.0, |found| found.1);
        rec.given("swab or surge at the weakest depth", cost, Kind::Pressure);
        rec.given("pressure that still mud leaves there, margin taken off", room, Kind::Pressure);
        rec.root(Root {
            equation: "room of still mud less swab or surge = 0, at the tightest depth",
            sign: "v",
            meaning: "fastest mean speed",
            kind: Kind::Speed,
            value: slowest.speed,
            residual: room - cost,
            residual_kind: Kind::Pressure,
        });
        if slowest.speed >= FASTEST {
            rec.note(|| "No crew moves faster than this: nothing faster is looked at.".to_owned());
        } else if slowest.speed <= 0.0 {
            rec.note(|| {
                "Breaking the mud loose, or the flow that is pumped, alone takes more than there is: no speed is safe.".to_owned()
            });
        }
        rec.table("fastest safe speed by bit depth", BY_BIT, || {
            by_stand_of(self.scene, kind.moves(self.scene)).map(|safe| vec![safe.bit_depth, safe.speed, safe.weakest]).collect()
        });
    }
}

const BY_BIT: &[(&str, Kind)] =
    &[("bit depth", Kind::Depth), ("fastest safe speed", Kind::Speed), ("weakest depth", Kind::Depth)];

/// The fastest safe speed at each stand of a trip, from surface down. [m, m/s]
pub(crate) fn by_stand(scene: &Scene, operation: Operation) -> Vec<(f64, f64)> {
    by_stand_of(scene, (operation, 0.0)).map(|safe| (safe.bit_depth, safe.speed)).collect()
}

fn by_stand_of(scene: &Scene, (operation, pumped): (Operation, f64)) -> impl Iterator<Item = Safe> {
    let section = scene.section();
    let end = match (operation, &*section.casing) {
        (Operation::RunningCasing, Some(casing)) => casing.shoe,
        (Operation::RunningCasing, None) => 0.0,
        _ => section.bottom,
    };
    let stand = scene.fit().rig.mast.stand;
    let stands = (1..).map(|count| f64::from(count) * stand).take_while(|depth| *depth < end).chain([end]);
    let trips = Trips::new(scene, (operation, pumped), &stands.collect::<Vec<f64>>());
    let each: Vec<Safe> = trips.each(FASTEST).flatten().collect();
    each.into_iter()
}

fn middle(top: f64, bottom: f64) -> f64 {
    0.5 * (top + bottom)
}

/// A situation of the same section.
fn situation(scene: &Scene, operation: Operation, bit_depth: f64) -> Situation {
    sweep::situation(scene.fit(), scene.situation.section, operation, scene.section().bottom, bit_depth)
}

/// The pressure that still mud leaves at a depth, the wanted margin taken off. [Pa]
fn room(scene: &Scene, flow: &Flow, operation: Operation, point: &Point) -> Option<f64> {
    let margins = &scene.fit().well.margins;
    let margin = if operation == Operation::PullingOut { margins.swab } else { margins.fracture };
    let keep = Hydrostatic { density: margin, vertical_depth: point.vertical_depth, gravity: scene.gravity() }.value();
    let pressure = flow.pressure_at(point.depth, point.vertical_depth);
    Some(match operation {
        Operation::PullingOut => pressure - point.floor() - keep,
        _ => point.fracture? - pressure - keep,
    })
}
