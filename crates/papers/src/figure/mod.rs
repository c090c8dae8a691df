//! A figure as a value: what is drawn, not how. Depth runs downward, all else to the right. One writer turns it into SVG;
//! a page, a table and a list of numbers can be made of the same value.

mod bars;
mod course;
mod days;
mod gallery;
mod hook_load;
mod kill;
mod leak_off;
mod numbers;
mod scale;
mod svg;
mod well;
mod window;

pub use bars::{Bar, Bars};
pub use course::course;
pub use days::days;
pub use gallery::{Drawing, Ground, PICTURES, Picture};
pub use hook_load::hook_load;
pub use kill::{kill_course, kill_schedule};
pub use leak_off::leak_off;
pub use numbers::{Numbers, csv, number, numbers, rounded};
pub use svg::{svg, svg_in_page, svg_on_paper};
pub use well::well;
pub use window::window;

/// Quantities along depth, or along something else: time, flow, strokes.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// What it shows.
    pub title: String,
    /// Under which conditions; a line below the title.
    pub note: String,
    /// The axis of the quantities that are compared.
    pub values: Axis,
    /// The axis along which they run.
    pub along: Axis,
    /// Where that axis leads.
    pub lie: Lie,
    /// Areas between two lines, drawn first.
    pub bands: Vec<Band>,
    /// Lines.
    pub series: Vec<Series>,
    /// Places along the axis with a name: shoes, tops, ends of sections.
    pub marks: Vec<Mark>,
    /// Whether the axis along which they run begins at nought.
    pub from_zero: bool,
}

/// Where the axis leads along which the quantities run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lie {
    /// Downward, as depth does; the quantities stand across, at the top.
    Downward,
    /// To the right; the quantities stand upward.
    Rightward,
}

/// An axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// What it measures.
    pub label: String,
    /// In which unit the figure's numbers are.
    pub unit: String,
}

/// A line along the axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// What it is.
    pub name: String,
    /// What it stands for, which sets its colour and stroke: a limit or a state of the well.
    pub role: Role,
    /// Runs of points (value, place along) in order; a gap separates two runs.
    pub runs: Vec<Vec<(f64, f64)>>,
}

/// What a line stands for. Each has a colour of its own and a stroke of its own, so that neither alone must be told apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Pressure of the fluid in the rock, or another lower limit.
    LowerLimit,
    /// Strength of the rock, or another upper limit.
    UpperLimit,
    /// Nothing moves.
    Still,
    /// Pumps on.
    Flowing,
    /// Pipe coming out.
    Pulling,
    /// Pipe going in.
    Running,
    /// Pumps on, off bottom.
    Circulating,
    /// Casing going in.
    RunningCasing,
    /// Shut in on a kick.
    ShutIn,
    /// What is asked for, of no system in particular.
    Demand,
    /// What the drawworks take.
    Drawworks,
    /// What the rotary drive takes.
    Drive,
    /// The wall of the hole.
    Wall,
    /// Casing that stands in the hole.
    Casing,
    /// What hangs in the hole.
    Pipe,
    /// The hole, or what was read in it.
    Hole,
    /// Where the bit is.
    Bit,
}

impl Role {
    /// Every role.
    pub const ALL: [Role; 17] = [
        Role::LowerLimit,
        Role::UpperLimit,
        Role::Still,
        Role::Flowing,
        Role::Pulling,
        Role::Running,
        Role::Circulating,
        Role::RunningCasing,
        Role::ShutIn,
        Role::Demand,
        Role::Drawworks,
        Role::Drive,
        Role::Wall,
        Role::Casing,
        Role::Pipe,
        Role::Hole,
        Role::Bit,
    ];

    /// The class of its elements.
    pub const fn class(self) -> &'static str {
        match self {
            Role::LowerLimit => "lower-limit",
            Role::UpperLimit => "upper-limit",
            Role::Still => "still",
            Role::Flowing => "flowing",
            Role::Pulling => "pulling",
            Role::Running => "running",
            Role::Circulating => "circulating",
            Role::RunningCasing => "running-casing",
            Role::ShutIn => "shut-in",
            Role::Demand => "demand",
            Role::Drawworks => "drawworks",
            Role::Drive => "drive",
            Role::Wall => "wall",
            Role::Casing => "casing",
            Role::Pipe => "pipe",
            Role::Hole => "hole",
            Role::Bit => "bit",
        }
    }
}

/// The area between two edges, each a line along the axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// What it is.
    pub name: String,
    /// What fills it.
    pub fill: Fill,
    /// Lower edge: points (value, place along) in order.
    pub low: Vec<(f64, f64)>,
    /// Upper edge: points (value, place along) in order.
    pub high: Vec<(f64, f64)>,
}

/// What a band stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Where it may lie: the window, what is feasible.
    Window,
    /// Cement.
    Cement,
    /// Steel in the hole.
    Steel,
}

impl Fill {
    /// The class of its elements.
    pub const fn class(self) -> &'static str {
        match self {
            Fill::Window => "band",
            Fill::Cement => "band cement",
            Fill::Steel => "band steel",
        }
    }
}

/// A place along the axis with a name.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What is there.
    pub label: String,
    /// The place.
    pub at: f64,
}

impl Figure {
    /// The same between two places along the axis; lines are cut where they cross the ends.
    pub fn between(&self, top: f64, bottom: f64) -> Figure {
        let mut figure = self.clone();
        for series in &mut figure.series {
            series.runs = series.runs.iter().flat_map(|run| cut(run, top, bottom)).collect();
        }
        figure.series.retain(|series| !series.runs.is_empty());
        for band in &mut figure.bands {
            band.low = cut(&band.low, top, bottom).concat();
            band.high = cut(&band.high, top, bottom).concat();
        }
        figure.marks.retain(|mark| (top..=bottom).contains(&mark.at));
        figure.from_zero = false;
        figure
    }
}

/// The pieces of a run that lie between two places.
fn cut(run: &[(f64, f64)], top: f64, bottom: f64) -> Vec<Vec<(f64, f64)>> {
    let inside = |point: &(f64, f64)| (top..=bottom).contains(&point.1);
    let mut pieces: Vec<Vec<(f64, f64)>> = Vec::new();
    let mut piece: Vec<(f64, f64)> = run.first().copied().filter(inside).into_iter().collect();
    for pair in run.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        // Where the line crosses the ends, in the order in which it meets them.
        let mut crossings: Vec<f64> = [top, bottom].into_iter().filter(|end| (from.1 - end) * (to.1 - end) < 0.0).collect();
        if from.1 > to.1 {
            crossings.reverse();
        }
        piece.extend(crossings.iter().map(|end| (from.0 + (to.0 - from.0) * (end - from.1) / (to.1 - from.1), *end)));
        if inside(&to) {
            piece.push(to);
        } else if !piece.is_empty() {
            pieces.push(std::mem::take(&mut piece));
        }
    }
    pieces.extend((!piece.is_empty()).then_some(piece));
    pieces
}

#[cfg(test)]
mod tests {
    use super::cut;

    #[test]
    fn a_line_is_cut_where_it_crosses() {
        let run = [(0.0, 0.0), (10.0, 100.0), (0.0, 200.0)];
        assert_eq!(cut(&run, 50.0, 150.0), [vec![(5.0, 50.0), (10.0, 100.0), (5.0, 150.0)]]);
        assert_eq!(cut(&run, 20.0, 30.0), [vec![(2.0, 20.0), (3.0, 30.0)]]);
        assert_eq!(cut(&run, 0.0, 200.0), [run.to_vec()]);
        assert!(cut(&run, 300.0, 400.0).is_empty());
        // Back and forth over one end.
        let back = [(0.0, 0.0), (1.0, 100.0), (2.0, 0.0)];
        assert_eq!(cut(&back, 0.0, 50.0), [vec![(0.0, 0.0), (0.5, 50.0)], vec![(1.5, 50.0), (2.0, 0.0)]]);
    }
}
