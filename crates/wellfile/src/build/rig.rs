//! The rig.

use super::{Assumed, assume, yes};
use crate::sheet::At;
use rigwright_well::{
    Accumulator, Aspiration, Block, Crossover, Crown, Diverter, Drawworks, Drive, DriveChain, DriveKind, Drives, Emergency,
    FuelPoint, LargestMotor, Line, Liner, Mast, MotorCurrent, Pits, Preventer, PreventerKind, Pump, PumpKind, RaisingLine,
    Returns, Rig, Riser, RotatingSeal, SafetyValve, Separator, Sets, ShearTest, Slips, SurfaceCombination, SurfaceLines,
    SurfaceWay, Tongs,
};

pub(super) fn rig(at: &At<'_>, assumed: &mut Vec<Assumed>) -> Option<Rig> {
    let rating = |table: &str| at.table(table).and_then(|table| table.number("rating"));
    Some(Rig {
        name: at.text("name")?.to_owned(),
        mast: mast(&at.table("mast")?)?.into(),
        crown: {
            let crown = at.table("crown")?;
            Crown { sheaves: crown.whole("sheaves")?, rating: crown.number("rating"), weight: crown.number("weight") }
        }
        .into(),
        block: {
            let block = at.table("block")?;
            Block {
                sheaves: block.whole("sheaves")?,
                rating: block.number("rating"),
                weight: block.number("weight")?,
                hook_rating: block.number("hook_rating"),
                length: block.number("length"),
            }
        }
        .into(),
        elevators: rating("elevators"),
        casing_elevators: at.table("elevators").and_then(|elevators| elevators.number("casing_rating")),
        tongs: {
            let tongs = at.table("tongs");
            let torque = |key| tongs.as_ref().and_then(|tongs| tongs.number(key));
            Tongs { torque: torque("torque"), casing_torque: torque("casing_torque") }
        }
        .into(),
        slips: {
            let slips = at.table("slips")?;
            Slips {
                rating: slips.number("rating"),
                casing_rating: slips.number("casing_rating"),
                length: slips.number("length"),
                friction: slips.number("friction")?,
            }
        }
        .into(),
        drawworks: drawworks(&at.table("drawworks")?)?.into(),
        line: line(&at.table("line")?)?.into(),
        raising_line: {
            let line = at.table("raising_line")?;
            RaisingLine {
                strength: line.number("strength"),
                pull: line.number("pull"),
                design_factor: line.number("design_factor")?,
            }
        }
        .into(),
        drive: drive(&at.table("drive")?)?.into(),
        pump: pump(&at.table("pump")?)?.into(),
        surface_lines: {
            let lines = at.table("surface_lines")?;
            SurfaceLines { way: surface_way(&lines)?, rating: lines.number("rating") }
        }
        .into(),
        pits: {
            let pits = at.table("pits")?;
            Pits {
                active: pits.number("active"),
                reserve: pits.number("reserve"),
                reserve_weight: pits.number("reserve_weight"),
                barite: pits.number("barite"),
                fuel: pits.number("fuel"),
                resupply: pits.number("resupply"),
                capacity: pits.number("capacity"),
                drain_back: pits.number("drain_back"),
                waste: pits.number("waste"),
                waste_factor: pits.number("waste_factor")?,
                trip_tank: pits.number("trip_tank"),
                mixing_rate: pits.number("mixing_rate"),
            }
        }
        .into(),
        drives: drives(&at.table("drives")?, assumed)?.into(),
        returns: {
            let returns = at.table("returns");
            let number = |key: &str| returns.as_ref().and_then(|returns| returns.number(key));
            Returns { line: number("line"), shakers: number("shakers") }
        }
        .into(),
        sets: sets(&at.table("sets")?)?.into(),
        largest_motor: match at.table("largest_motor") {
            Some(at) => Some(largest_motor(&at)?),
            None => None,
        },
        emergency: {
            let emergency = at.table("emergency")?;
            Emergency {
                rating: emergency.number("rating"),
                preventer_control: emergency.number("preventer_control"),
                lights: emergency.number("lights"),
                brake: emergency.number("brake"),
            }
        }
        .into(),
        stack: at.list("preventer").iter().map(preventer).collect::<Option<Vec<_>>>()?.into(),
        wellhead_rating: rating("wellhead"),
        manifold_rating: rating("choke_manifold"),
        choke_hose_rating: at.table("choke_manifold").and_then(|manifold| manifold.number("hose_rating")),
        accumulator: match at.table("accumulator") {
            Some(at) => Some(accumulator(&at)?),
            None => None,
        }
        .into(),
        rotating_seal: {
            let seal = at.table("rotating_seal");
            let number = |key: &str| seal.as_ref().and_then(|seal| seal.number(key));
            RotatingSeal { turning: number("turning"), still: number("still") }
        },
        managed_choke: rating("managed_choke"),
        riser: match at.table("riser") {
            Some(at) => Some(Riser {
                inner_diameter: at.number("inside")?,
                choke_line: at.number("choke_line")?,
                kill_line: at.number("kill_line")?,
                booster_line: at.number("booster_line"),
                trapped_volume: at.number("trapped_volume"),
                linear_mass: at.number("weight"),
                stack_weight: at.number("stack_weight"),
            }),
            None => None,
        },
        choke_bore: at.table("choke_manifold").and_then(|manifold| manifold.number("choke_bore")),
        separator: match at.table("separator") {
            Some(at) => Some(Separator {
                leg: at.number("leg"),
                leg_weight: at.number("leg_weight"),
                vent_length: at.number("vent_length"),
                vent_inside: at.number("vent_inside"),
                vent_roughness: at.number("vent_roughness")?,
            }),
            None => None,
        },
        diverter: match at.table("diverter") {
            Some(at) => Some(Diverter {
                rating: at.number("rating"),
                line_inside: at.number("line_inside"),
                line_length: at.number("line_length"),
                line_fittings: at.number("line_fittings"),
                line_roughness: at.number("line_roughness")?,
            }),
            None => None,
        },
        safety_valves: at.list("safety_valve").iter().map(safety_valve).collect::<Option<_>>()?,
        crossovers: at.list("crossover").iter().map(crossover).collect::<Option<_>>()?,
        wellhead_sour: at.table("wellhead").and_then(|wellhead| yes(&wellhead, "sour")),
        manifold_sour: at.table("choke_manifold").and_then(|manifold| yes(&manifold, "sour")),
    })
}

fn mast(at: &At<'_>) -> Option<Mast> {
    Some(Mast {
        hook_load: at.pairs("hook_load")?.iter().map(|pair| (pair.key as u32, pair.value)).collect(),
        stand: at.number("stand")?,
        racking: at.whole("racking"),
        setback: at.number("setback"),
        rotary_load: at.number("rotary_load"),
        leg_rating: at.number("leg_rating"),
        clear_height: at.number("clear_height"),
    })
}

fn drawworks(at: &At<'_>) -> Option<Drawworks> {
    Some(Drawworks {
        power: at.number("power")?,
        line_pull: at.number("line_pull")?.into(),
        efficiency: at.number("efficiency")?,
        hoisting_speed: at.number("hoisting_speed")?.into(),
        block_speed: at.number("block_speed")?.into(),
        acceleration: at.number("acceleration")?.into(),
        brake_power: at.number("brake_power").into(),
        brake_torque: at.number("brake_torque").into(),
        drum: at.number("drum"),
        wraps: at.number("wraps"),
        dead_wraps: at.number("dead_wraps")?,
    })
}

fn line(at: &At<'_>) -> Option<Line> {
    Some(Line {
        diameter: at.number("diameter")?,
        strength: at.number("strength")?,
        strung: at.whole("strung")?,
        sheave_factor: at.number("sheave_factor")?,
        design_factor: at.number("design_factor")?,
        casing_design_factor: at.number("casing_design_factor")?,
        anchor_rating: at.number("anchor_rating"),
        cut_work: at.number("cut_work"),
        work_since_cut: at.number("work_since_cut"),
        slips: at.whole("slips")?,
        service_factor: at.number("service_factor")?,
        on_reel: at.number("on_reel"),
    })
}

fn drive(at: &At<'_>) -> Option<Drive> {
    let kind = match at.text("kind")? {
        "rotary-table" => DriveKind::RotaryTable,
        "top-drive" => DriveKind::TopDrive,
        _ => return None,
    };
    Some(Drive {
        kind,
        torque: at.number("torque")?,
        speed: at.number("speed")?,
        power: at.number("power")?,
        weight: if kind == DriveKind::TopDrive { at.number("weight")? } else { 0.0 },
        rating: at.number("rating"),
    })
}

fn pump(at: &At<'_>) -> Option<Pump> {
    Some(Pump {
        kind: match at.text("kind")? {
            "triplex" => PumpKind::Triplex,
            "duplex" => PumpKind::Duplex,
            _ => return None,
        },
        number: usize::try_from(at.whole("number")?).ok()?,
        stroke: at.number("stroke")?,
        rod: at.number("rod"),
        liners: at.pairs("liners")?.iter().map(|pair| Liner { diameter: pair.key, rating: pair.value }).collect(),
        speed: at.number("speed")?,
        power: at.number("power")?,
        volumetric_efficiency: at.number("volumetric_efficiency")?,
        mechanical_efficiency: at.number("mechanical_efficiency")?,
    })
}

fn drives(at: &At<'_>, assumed: &mut Vec<Assumed>) -> Option<Drives> {
    let current = match at.text("kind")? {
        "direct-current" => MotorCurrent::Direct,
        "alternating-current" => MotorCurrent::Alternating,
        _ => return None,
    };
    let usual = current.usual_chain();
    let mut share = |key: &str, usual: f64| {
        at.number(key).unwrap_or_else(|| {
            assume(assumed, at, key, format!("{} %", 100.0 * usual));
            usual
        })
    };
    let chain = DriveChain {
        converter: share("converter_efficiency", usual.converter),
        motor: share("motor_efficiency", usual.motor),
        gear: share("gear_efficiency", usual.gear),
    };
    Some(Drives { current, chain })
}

fn sets(at: &At<'_>) -> Option<Sets> {
    Some(Sets {
        number: at.whole("number")?,
        on_line: at.whole("on_line")?,
        rating: at.number("rating")?,
        aspiration: match at.text("aspiration") {
            None => None,
            Some("natural") => Some(Aspiration::Natural),
            Some("turbocharged") => Some(Aspiration::Turbocharged),
            Some("charge-cooled") => Some(Aspiration::Cooled),
            Some(_) => return None,
        },
        power_factor: at.number("power_factor"),
        apparent_rating: at.number("apparent_rating"),
        transient_reactance: at.number("transient_reactance"),
        voltage_dip: at.number("voltage_dip")?,
        fuel: at.pairs("fuel")?.iter().map(|pair| FuelPoint { load: pair.key, rate: pair.value }).collect(),
        emission_factor: at.number("emission_factor")?,
        hotel_load: at.number("hotel_load")?,
        auxiliary_load: at.number("auxiliary_load")?,
        station_load: at.number("station_load"),
        buses: at.whole("buses"),
        hotel_power_factor: at.number("hotel_power_factor")?,
    })
}

fn largest_motor(at: &At<'_>) -> Option<LargestMotor> {
    Some(LargestMotor {
        power: at.number("power")?,
        efficiency: at.number("efficiency")?,
        power_factor: at.number("power_factor")?,
        current_ratio: at.number("current_ratio")?,
        starting_voltage: at.number("starting_voltage")?,
    })
}

fn shear_test(at: &At<'_>) -> Option<ShearTest> {
    Some(ShearTest { outer_diameter: at.number("outside")?, linear_mass: at.number("weight")?, pressure: at.number("pressure")? })
}

fn safety_valve(at: &At<'_>) -> Option<SafetyValve> {
    Some(SafetyValve { connection: at.text("connection")?.to_owned(), rating: at.number("rating") })
}

fn crossover(at: &At<'_>) -> Option<Crossover> {
    Some(Crossover { below: at.text("below")?.to_owned(), above: at.text("above")?.to_owned() })
}

fn preventer(at: &At<'_>) -> Option<Preventer> {
    Some(Preventer {
        name: at.text("name")?.to_owned(),
        kind: match at.text("kind")? {
            "annular" => PreventerKind::Annular,
            "pipe-ram" => PreventerKind::PipeRam,
            "blind-ram" => PreventerKind::BlindRam,
            "blind-shear-ram" => PreventerKind::BlindShearRam,
            _ => return None,
        },
        rating: at.number("rating")?,
        bore: at.number("bore")?,
        closing_volume: at.number("closing_volume"),
        closes_on: at.ends("closes_on"),
        closing_time: at.number("closing_time"),
        closing_ratio: at.number("closing_ratio"),
        shear_tests: at.list("shear_test").iter().map(shear_test).collect::<Option<_>>()?,
        sour: yes(at, "sour"),
    })
}

fn accumulator(at: &At<'_>) -> Option<Accumulator> {
    Some(Accumulator {
        bottles: at.whole("bottles")?,
        bottle_volume: at.number("bottle_volume")?,
        precharge: at.number("precharge")?,
        charged: at.number("charged")?,
        minimum: at.number("minimum")?,
        temperature: at.number("temperature")?,
        design_factor: at.number("design_factor"),
        pumps: at.whole("pumps"),
        pump_rate: at.number("pump_rate"),
        coldest: at.number("coldest"),
    })
}

fn surface_way(at: &At<'_>) -> Option<SurfaceWay> {
    Some(match at.whole("combination") {
        Some(number) => {
            SurfaceWay::Combination(SurfaceCombination::ALL.get(usize::try_from(number).ok()?.checked_sub(1)?).copied()?)
        }
        None => SurfaceWay::Pipe { length: at.number("length")?, inner_diameter: at.number("inside")? },
    })
}
