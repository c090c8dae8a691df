//! How much weight still reaches the bit while the string slides: drag of wound pipe grows with the push, until no more
//! arrives.

use crate::fields::drag::{Moved, Moving};
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::hoisting::StringMotion;
use rigwright_physics::rotating::LOCK_UP_TRANSFER;
use rigwright_physics::{Kind, Off, Recorder, Root, numerics};
use rigwright_well::{Operation, PartKind};

/// A little more weight, for the share of it that must be slacked off at surface. [N]
const LITTLE: f64 = 100.0;
/// More weight than any bit takes. [N]
const MOST: f64 = 2e6;

/// Whether the section is drilled without turning the string, at least now and then.
fn slides(scene: &Scene) -> bool {
    let motor = scene.section().string.iter().any(|part| part.kind == PartKind::Motor);
    scene.situation.operation == Operation::Drilling && (motor || scene.situation.rotary_speed <= 0.0)
}

pub(super) fn lock_up<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if !slides(scene) {
        return Answer::DoesNotArise("the string turns, or is not drilled with: there is no motor to slide with");
    }
    let fit = scene.fit();
    let moving = Moving::new(scene);
    let grid = moving.grid(*fit.well.friction);
    let axial_speed = -scene.section().drilling.penetration_rate;
    let moved =
        |weight_on_bit: f64| Moved { motion: StringMotion { axial_speed, rotary_speed: 0.0 }, weight_on_bit, bit_torque: 0.0 };
    let surface = |weight: f64| moving.surface(&grid, &moved(weight), &mut Off).effective_tension;
    // Share of a little more slack that arrives at the bit, less the least share.
    let transfer = |weight: f64| LITTLE / (surface(weight) - surface(weight + LITTLE)).max(1e-9) - LOCK_UP_TRANSFER;
    // All the weight that the string has is slacked off when nothing hangs on the hook any more.
    let by_weight = if surface(0.0) <= 0.0 { 0.0 } else { numerics::root(surface, 0.0, MOST).unwrap_or(MOST) };
    let locked = transfer(by_weight) < 0.0;
    let capacity = if locked { numerics::root(transfer, 0.0, by_weight).unwrap_or(0.0) } else { by_weight };
    let demand = scene.situation.weight_on_bit;
    if R::ON {
        rec.heading("sliding with the wanted weight");
        moving.surface(&grid, &moved(demand), rec);
        rec.heading("the largest weight that gets to the bit");
        rec.given("share of more slack that must still arrive", LOCK_UP_TRANSFER, Kind::Fraction);
        rec.root(Root {
            equation: if locked {
                "share of a little more slack that arrives less the least share = 0"
            } else {
                "effective tension at surface = 0: all of the string's weight is slacked off"
            },
            sign: "W",
            meaning: "weight on bit",
            kind: Kind::Force,
            value: capacity,
            residual: if locked { transfer(capacity) } else { surface(capacity) },
            residual_kind: if locked { Kind::Ratio } else { Kind::Force },
        });
        const COLUMNS: &[(&str, Kind)] =
            &[("weight on bit", Kind::Force), ("string load at surface", Kind::Force), ("share that arrives", Kind::Fraction)];
        rec.table("weight on bit against what is slacked off", COLUMNS, || {
            let weight = |part: u32| capacity.max(demand) * f64::from(part) / 8.0;
            (0..=8).map(weight).map(|weight| vec![weight, surface(weight), transfer(weight) + LOCK_UP_TRANSFER]).collect()
        });
    }
    let name = if locked { "lock-up of the string" } else { "weight of the string that is left to slack off" };
    let limit = Limit {
        capacity,
        reserve: (fit.well.reserves.strength * capacity).max(1.0),
        name,
        source: "drag march with wound pipe; lock-up at 1 % by common practice",
    };
    Answer::Judged(Judged { demand, limit, place: Place::Depth(scene.situation.bit_depth), zero: 0.0 })
}
