//! Every picture of a well, one a question. What is drawn comes from a review and from `margins::pictures`.

use super::{Axis, Band, Bar, Bars, Figure, Fill, Lie, Mark, Role, Series, course, well, window};
use rigwright_margins::power::trace::{PowerTrace, TracePoint};
use rigwright_margins::{Review, pictures, question};
use rigwright_units::{Kind, System, unit};
use rigwright_well::{Fit, Operation, Section};

/// What pictures are made of.
#[derive(Clone, Copy)]
pub struct Ground<'a> {
    /// The well and the rig.
    pub fit: &'a Fit,
    /// Their review.
    pub review: &'a Review,
    /// The section that is looked at; a picture of all sections takes `None` for all of them.
    pub section: Option<usize>,
    /// The system of units that it is drawn in.
    pub units: System,
}

/// A picture: along an axis, or bars.
#[derive(Clone, Debug, PartialEq)]
pub enum Drawing {
    /// Quantities along an axis.
    Figure(Figure),
    /// Quantities side by side.
    Bars(Bars),
}

/// One picture of the gallery.
pub struct Picture {
    /// A word for its address.
    pub slug: &'static str,
    /// What it is called.
    pub title: &'static str,
    /// The question that it answers.
    pub asks: &'static str,
    /// Whether it can show all sections at once.
    pub all_sections: bool,
    /// Whether it is about pressure control.
    pub control: bool,
    /// Draws it; `None` where there is nothing to draw.
    pub draw: fn(&Ground) -> Option<Drawing>,
}

/// Every picture, in the order in which they are listed.
pub static PICTURES: [Picture; 14] = [
    Picture {
        slug: "window",
        title: "mud window",
        asks: "Does the mud lie between what the rock presses and what it bears, still and moving?",
        all_sections: true,
        control: false,
        draw: |ground| {
            let sections = ground.sections().map(|section| (section, rigwright_margins::window(ground.fit, section)));
            Some(Drawing::Figure(window(ground.fit, &sections.collect::<Vec<_>>(), ground.units)))
        },
    },
    Picture {
        slug: "well",
        title: "the well to scale",
        asks: "What stands in the hole, what hangs in it, and how wide is it where?",
        all_sections: false,
        control: false,
        draw: |ground| Some(Drawing::Figure(well::well(ground.fit, ground.last(), ground.units))),
    },
    Picture {
        slug: "hook-load",
        title: "hook load by depth",
        asks: "How heavy is the string in each motion, and what does the mast bear?",
        all_sections: false,
        control: false,
        draw: |ground| of_question(ground, "hoisting/hook-load"),
    },
    Picture {
        slug: "mast",
        title: "loads on mast and line",
        asks: "What do mast, crown, line and each hoisting part carry at their worst?",
        all_sections: false,
        control: false,
        draw: mast,
    },
    Picture {
        slug: "circuit",
        title: "pressure by part",
        asks: "Where does the pump's pressure go, from the pump to the flowline?",
        all_sections: false,
        control: false,
        draw: circuit,
    },
    Picture {
        slug: "flow",
        title: "flow against pressure",
        asks: "How much may be pumped with these nozzles and liners, and how much must be?",
        all_sections: false,
        control: false,
        draw: flow,
    },
    Picture {
        slug: "cleaning",
        title: "flow that cleans, by depth",
        asks: "Which part of the hole wants the most flow to be clean?",
        all_sections: false,
        control: false,
        draw: cleaning,
    },
    Picture {
        slug: "temperature",
        title: "temperature",
        asks: "How hot is the rock, and what do the tools bear?",
        all_sections: false,
        control: false,
        draw: temperature,
    },
    Picture {
        slug: "trip-speeds",
        title: "trip speeds",
        asks: "How fast may pipe and casing be moved at each depth?",
        all_sections: false,
        control: false,
        draw: trip_speeds,
    },
    Picture {
        slug: "power-trip",
        title: "power through a stand",
        asks: "Do the sets on line carry the lift of a stand at the end of the section?",
        all_sections: false,
        control: false,
        draw: |ground| power(ground, Operation::PullingOut),
    },
    Picture {
        slug: "power-connection",
        title: "power through a connection",
        asks: "Do the sets on line carry a connection at the end of the section?",
        all_sections: false,
        control: false,
        draw: |ground| power(ground, Operation::Connection),
    },
    Picture {
        slug: "kick-tolerance",
        title: "kick tolerance",
        asks: "How much gas may come in at each depth before open hole breaks?",
        all_sections: false,
        control: true,
        draw: |ground| of_question(ground, "control/kick-tolerance"),
    },
    Picture {
        slug: "accumulator",
        title: "accumulator",
        asks: "What is left in the bottles after every preventer has been closed once?",
        all_sections: false,
        control: true,
        draw: accumulator,
    },
    Picture {
        slug: "back-pressure",
        title: "back pressure through a connection",
        asks: "Which back pressure holds the hole as the pumps are slowed?",
        all_sections: false,
        control: true,
        draw: back_pressure,
    },
];

impl Ground<'_> {
    fn sections(&self) -> impl Iterator<Item = usize> {
        let one = self.section;
        (0..self.fit.well.sections.len()).filter(move |section| one.is_none_or(|one| one == *section))
    }

    /// The section that is looked at, else the last.
    fn last(&self) -> usize {
        self.section.unwrap_or_else(|| self.fit.well.sections.len().saturating_sub(1))
    }

    fn this(&self) -> Option<&Section> {
        self.fit.well.sections.get(self.last())
    }

    fn of(&self, kind: Kind) -> impl Fn(f64) -> f64 + use<> {
        let unit = unit(kind, self.units);
        move |value| unit.from_si(value)
    }

    fn axis(&self, label: &str, kind: Kind) -> Axis {
        Axis { label: label.to_owned(), unit: unit(kind, self.units).symbol.to_owned() }
    }

    fn title(&self, what: &str) -> String {
        format!("{}: {what}", self.fit.well.name)
    }

    /// Points (value, place along) in the reader's units.
    fn run(&self, rows: &[(f64, f64)], along: Kind, value: Kind) -> Vec<(f64, f64)> {
        let (along, value) = (self.of(along), self.of(value));
        rows.iter().map(|row| (value(row.1), along(row.0))).collect()
    }
}

fn line(name: &str, role: Role, run: Vec<(f64, f64)>) -> Series {
    Series { name: name.to_owned(), role, runs: vec![run] }
}

/// The course of a question over depth.
fn of_question(ground: &Ground, slug: &str) -> Option<Drawing> {
    let asked = ground.review.find(slug, Some(ground.last()))?;
    let rows = rigwright_margins::course(ground.fit, asked.question, ground.last());
    let figure = course(ground.fit, asked.question, &rows, &asked.situation, ground.units);
    (!figure.series.is_empty()).then_some(Drawing::Figure(figure))
}

/// Forces of the hoisting system, each at its worst.
fn mast(ground: &Ground) -> Option<Drawing> {
    const LOADS: [&str; 7] = [
        "hoisting/hook-load",
        "hoisting/hoist-parts",
        "hoisting/crown-load",
        "hoisting/worst-leg",
        "hoisting/line-strength",
        "hoisting/line-pull",
        "hoisting/dead-line-anchor",
    ];
    let force = ground.of(Kind::Force);
    let bar = |slug: &&str| {
        let asked = ground.review.find(slug, Some(ground.last()))?;
        let judged = asked.answer.judged()?;
        let limit = Some(force(judged.limit.capacity));
        Some(Bar { name: asked.question.title.to_owned(), value: force(judged.demand), limit, of: judged.limit.name.to_owned() })
    };
    let rows: Vec<Bar> = LOADS.iter().filter_map(bar).collect();
    let strung = |operation| ground.fit.lines_strung(ground.last(), operation);
    let lines = match (strung(Operation::PullingOut), strung(Operation::RunningCasing)) {
        (own, casing) if own == casing => format!("{own} lines strung"),
        (own, casing) => format!("{own} lines strung, {casing} for the casing"),
    };
    let note = format!("{}, each at its worst; {lines}; the stroke is the limit", ground.this()?.name);
    let values = ground.axis("load", Kind::Force);
    (!rows.is_empty()).then(|| Drawing::Bars(Bars { title: ground.title("loads on mast and line"), note, values, rows }))
}

fn circuit(ground: &Ground) -> Option<Drawing> {
    let pressure = ground.of(Kind::Pressure);
    let limit = ground.review.find("circulating/standpipe-pressure", Some(ground.last()));
    let limit = limit.and_then(|asked| asked.answer.judged()).map(|judged| (pressure(judged.limit.capacity), judged.limit.name));
    let bar = |(name, value): (&str, f64)| {
        let held = limit.filter(|_| name == "standpipe");
        Bar {
            name: name.to_owned(),
            value: pressure(value),
            limit: held.map(|held| held.0),
            of: held.map_or("", |held| held.1).to_owned(),
        }
    };
    let rows = pictures::circuit_losses(ground.fit, ground.last())?.into_iter().map(bar).collect();
    let note = format!("{}, drilling at its end; the last is the sum", ground.this()?.name);
    Some(Drawing::Bars(Bars {
        title: ground.title("pressure by part"),
        note,
        values: ground.axis("pressure", Kind::Pressure),
        rows,
    }))
}

fn flow(ground: &Ground) -> Option<Drawing> {
    let map = pictures::flow_map(ground.fit, ground.last())?;
    let along = ground.of(Kind::FlowRate);
    let run = |rows: &[(f64, f64)]| ground.run(rows, Kind::FlowRate, Kind::Pressure);
    let mut series = vec![line("with the nozzles in the bit", Role::Demand, run(&map.standpipe))];
    for (name, role, rows) in
        [("rating of liners and lines", Role::UpperLimit, &map.rating), ("all the power of the pumps", Role::Pulling, &map.power)]
    {
        if !rows.is_empty() {
            series.push(line(name, role, run(rows)));
        }
    }
    let mut marks = vec![Mark { label: "planned".to_owned(), at: along(map.planned) }];
    marks.extend(map.least.map(|least| Mark { label: "cleans the hole".to_owned(), at: along(least) }));
    marks.extend(map.most.map(|most| Mark { label: "largest pump speed".to_owned(), at: along(most) }));
    // Between the flow that cleans and the one that the pumps give, under the rating and the power.
    let (least, most) = (map.least.unwrap_or(0.0), map.most.unwrap_or(f64::INFINITY));
    let power = |flow: f64| map.power.iter().find(|row| row.0 >= flow).filter(|_| map.power[0].0 <= flow).map(|row| row.1);
    let roof: Vec<(f64, f64)> = map
        .rating
        .iter()
        .filter(|row| (least..=most).contains(&row.0))
        .map(|row| (row.0, power(row.0).map_or(row.1, |power| power.min(row.1))))
        .collect();
    let floor: Vec<(f64, f64)> = roof.iter().map(|row| (row.0, 0.0)).collect();
    let band = Band { name: "feasible".to_owned(), fill: Fill::Window, low: run(&floor), high: run(&roof) };
    Some(Drawing::Figure(Figure {
        title: ground.title("flow against pressure"),
        note: format!(
            "{}, off bottom at its end; shaded: what rating, power, pump speed and cleaning leave",
            ground.this()?.name
        ),
        values: ground.axis("standpipe pressure", Kind::Pressure),
        along: ground.axis("flow", Kind::FlowRate),
        lie: Lie::Rightward,
        bands: if roof.is_empty() { Vec::new() } else { vec![band] },
        series,
        marks,
        from_zero: true,
    }))
}

fn cleaning(ground: &Ground) -> Option<Drawing> {
    let slug = "circulating/cleaning";
    let asked = ground.review.find(slug, Some(ground.last()))?;
    let rows = pictures::along(ground.fit, question(slug)?, &asked.situation);
    let wanted: Vec<(f64, f64)> = rows.iter().map(|(depth, judged)| (*depth, judged.demand)).collect();
    let pumped: Vec<(f64, f64)> = rows.iter().map(|(depth, judged)| (*depth, judged.limit.capacity)).collect();
    let run = |rows: &[(f64, f64)]| ground.run(rows, Kind::Depth, Kind::FlowRate);
    let depth = ground.of(Kind::Depth);
    let shoe = ground.fit.well.casing_above(ground.last());
    (rows.len() > 1).then(|| {
        Drawing::Figure(Figure {
            title: ground.title("flow that cleans the hole"),
            note: ground.this().map_or_else(String::new, |section| format!("{}, drilling at the governing depth", section.name)),
            values: ground.axis("flow", Kind::FlowRate),
            along: ground.axis("measured depth", Kind::Depth),
            lie: Lie::Downward,
            bands: Vec::new(),
            series: vec![
                line("flow that cleans there", Role::LowerLimit, run(&wanted)),
                line("flow pumped", Role::Flowing, run(&pumped)),
            ],
            marks: shoe
                .map(|casing| Mark { label: format!("shoe of {}", casing.name), at: depth(casing.shoe) })
                .into_iter()
                .collect(),
            from_zero: true,
        })
    })
}

fn temperature(ground: &Ground) -> Option<Drawing> {
    let (depth, degrees) = (ground.of(Kind::Depth), ground.of(Kind::Temperature));
    let rows = pictures::rock_temperature(ground.fit);
    let mut series = vec![line("rock, undisturbed", Role::LowerLimit, ground.run(&rows, Kind::Depth, Kind::Temperature))];
    let section = ground.this()?;
    // Tools from the bit up, with what they bear, where they are at the end of the section.
    let (mut below, mut marks) = (section.bottom, Vec::new());
    for part in &section.string {
        let top = (below - part.length).max(0.0);
        if let Some(bears) = part.temperature_limit {
            let ends = [top, below].map(|at| (degrees(bears), depth(ground.fit.well.path.vertical_depth_at(at))));
            marks.push(Mark { label: part.name.clone(), at: ends[1].1 });
            series.push(line("borne by tools", Role::UpperLimit, ends.to_vec()));
        }
        below = top;
    }
    Some(Drawing::Figure(Figure {
        title: ground.title("temperature"),
        note: format!("tools of {}, where they are at its end", section.name),
        values: ground.axis("temperature", Kind::Temperature),
        along: ground.axis("vertical depth", Kind::Depth),
        lie: Lie::Downward,
        bands: Vec::new(),
        series,
        marks,
        from_zero: true,
    }))
}

fn trip_speeds(ground: &Ground) -> Option<Drawing> {
    let section = ground.this()?;
    let speed = ground.of(Kind::Speed);
    let trips = [
        (
            Operation::PullingOut,
            "pulling out, safe",
            Role::Pulling,
            Some(("pulling out, planned", section.tripping.pulling_speed)),
        ),
        (Operation::RunningIn, "running in, safe", Role::Running, Some(("running in, planned", section.tripping.running_speed))),
        (
            Operation::RunningCasing,
            "running casing, safe",
            Role::RunningCasing,
            section.casing.as_ref().map(|casing| ("running casing, planned", casing.running_speed)),
        ),
    ];
    let mut series = Vec::new();
    for ((operation, name, role, planned), plan_role) in trips.into_iter().zip([Role::Demand, Role::ShutIn, Role::Circulating]) {
        let rows = pictures::safe_speeds(ground.fit, ground.last(), operation);
        let run = ground.run(&rows, Kind::Depth, Kind::Speed);
        let (Some(first), Some(last)) = (run.first().copied(), run.last().copied()) else { continue };
        series.push(line(name, role, run));
        if let Some((name, planned)) = planned {
            series.push(line(name, plan_role, vec![(speed(planned), first.1), (speed(planned), last.1)]));
        }
    }
    (!series.is_empty()).then(|| {
        Drawing::Figure(Figure {
            title: ground.title("trip speeds"),
            note: format!("{}, mean speed over a stand; margins kept at every depth of open hole", section.name),
            values: ground.axis("mean speed", Kind::Speed),
            along: ground.axis("depth of bit or shoe", Kind::Depth),
            lie: Lie::Downward,
            bands: Vec::new(),
            series,
            marks: Vec::new(),
            from_zero: true,
        })
    })
}

type Draws = (&'static str, Role, fn(&TracePoint) -> f64);

fn power(ground: &Ground, operation: Operation) -> Option<Drawing> {
    const CONSUMERS: [Draws; 4] = [
        ("all together", Role::Demand, |point| point.load.total()),
        ("drawworks", Role::Drawworks, |point| point.load.drawworks.power),
        ("mud pumps", Role::Flowing, |point| point.load.pumps.power),
        ("rotary drive", Role::Drive, |point| point.load.drive.power),
    ];
    let trace: PowerTrace = pictures::power_cycle(ground.fit, ground.last(), operation)?;
    let (watt, seconds) = (ground.of(Kind::Power), |time: f64| time);
    let run =
        |draws: fn(&TracePoint) -> f64| trace.points.iter().map(|point| (watt(draws(point)), seconds(point.time))).collect();
    let drawn = |(_, _, draws): &&Draws| trace.points.iter().any(|point| draws(point) > 0.0);
    let mut series: Vec<Series> =
        CONSUMERS.iter().filter(drawn).map(|(name, role, draws)| line(name, *role, run(*draws))).collect();
    if let Some(bears) = pictures::sets_bear(ground.fit, ground.last(), operation) {
        let ends = [0.0, trace.duration()].map(|time| (watt(bears), seconds(time)));
        series.push(line("sets on line", Role::UpperLimit, ends.to_vec()));
    }
    let what = if operation == Operation::Connection { "a connection" } else { "pulling a stand" };
    Some(Drawing::Figure(Figure {
        title: ground.title(&format!("power through {what}")),
        note: format!("{}, at its end; {} sets on line", ground.this()?.name, ground.fit.rig.sets.on_line),
        values: ground.axis("power", Kind::Power),
        along: Axis { label: "time".to_owned(), unit: "s".to_owned() },
        lie: Lie::Rightward,
        bands: Vec::new(),
        series,
        marks: Vec::new(),
        from_zero: true,
    }))
}

fn accumulator(ground: &Ground) -> Option<Drawing> {
    let known = pictures::accumulator(ground.fit)?;
    let volume = ground.of(Kind::FluidVolume);
    let bar = |name: &str, value: f64, limit: Option<f64>, of: &str| Bar {
        name: name.to_owned(),
        value: volume(value),
        limit: limit.map(&volume),
        of: of.to_owned(),
    };
    let rows = vec![
        bar("usable before", known.usable, None, ""),
        bar("closes every preventer once", known.closing, None, ""),
        bar("usable after", known.left, None, ""),
        bar("wanted, with the design factor", known.wanted, Some(known.usable), "usable fluid"),
    ];
    let note = "without the pumps of the unit; usable by method B, real nitrogen".to_owned();
    Some(Drawing::Bars(Bars { title: ground.title("accumulator"), note, values: ground.axis("fluid", Kind::FluidVolume), rows }))
}

fn back_pressure(ground: &Ground) -> Option<Drawing> {
    let rows = pictures::back_pressures(ground.fit, ground.last());
    let section = ground.this()?;
    (!rows.is_empty()).then(|| {
        Drawing::Figure(Figure {
            title: ground.title("back pressure through a connection"),
            note: format!("{}, at its end: what holds the anchor as the pumps are slowed", section.name),
            values: ground.axis("back pressure", Kind::Pressure),
            along: ground.axis("flow", Kind::FlowRate),
            lie: Lie::Rightward,
            bands: Vec::new(),
            series: vec![line("back pressure to hold", Role::Demand, ground.run(&rows, Kind::FlowRate, Kind::Pressure))],
            marks: Vec::new(),
            from_zero: true,
        })
    })
}
