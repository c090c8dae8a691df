//! A figure as a value: what is drawn, not how. Depth runs downward. One writer turns it into SVG; a page, a table
//! and a list of numbers can be made of the same value.

mod course;
mod numbers;
mod scale;
mod svg;
mod window;

pub use course::course;
pub use numbers::{Numbers, csv, number, numbers};
pub use svg::{svg, svg_in_page, svg_on_paper};
pub use window::window;

/// Quantities against depth.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// What it shows.
    pub title: String,
    /// Under which conditions; a line below the title.
    pub note: String,
    /// The axis across, at the top.
    pub across: Axis,
    /// The axis of depth, downward.
    pub down: Axis,
    /// Areas between two lines, drawn first.
    pub bands: Vec<Band>,
    /// Lines.
    pub series: Vec<Series>,
    /// Depths with a name: shoes, tops, ends of sections.
    pub marks: Vec<Mark>,
    /// Whether the axis of depth begins at the datum.
    pub from_datum: bool,
}

/// An axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// What it measures.
    pub label: String,
    /// In which unit the figure's numbers are.
    pub unit: String,
}

/// A line over depth.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// What it is.
    pub name: String,
    /// What it stands for, which sets its colour and stroke: a limit or a state of the well.
    pub role: Role,
    /// Runs of points (across, depth) in order; a gap separates two runs.
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
}

impl Role {
    /// Every role.
    pub const ALL: [Role; 9] = [
        Role::LowerLimit,
        Role::UpperLimit,
        Role::Still,
        Role::Flowing,
        Role::Pulling,
        Role::Running,
        Role::Circulating,
        Role::RunningCasing,
        Role::ShutIn,
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
        }
    }
}

/// The area between a left and a right edge, each a line over depth.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// What it is.
    pub name: String,
    /// Left edge: points (across, depth), downward.
    pub left: Vec<(f64, f64)>,
    /// Right edge: points (across, depth), downward.
    pub right: Vec<(f64, f64)>,
}

/// A depth with a name.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What is there.
    pub label: String,
    /// The depth.
    pub depth: f64,
}

impl Figure {
    /// The same between two depths; lines are cut where they cross the ends.
    pub fn between(&self, top: f64, bottom: f64) -> Figure {
        let mut figure = self.clone();
        for series in &mut figure.series {
            series.runs = series.runs.iter().flat_map(|run| cut(run, top, bottom)).collect();
        }
        figure.series.retain(|series| !series.runs.is_empty());
        for band in &mut figure.bands {
            band.left = cut(&band.left, top, bottom).concat();
            band.right = cut(&band.right, top, bottom).concat();
        }
        figure.marks.retain(|mark| (top..=bottom).contains(&mark.depth));
        figure.from_datum = false;
        figure
    }
}

/// The pieces of a run that lie between two depths.
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
