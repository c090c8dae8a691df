//! A figure as a value: what is drawn, not how. Depth runs downward. One writer turns it into SVG; a page, a table
//! and a list of numbers can be made of the same value.

mod scale;
mod svg;
mod window;

pub use svg::svg;
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
}

impl Role {
    /// Every role.
    pub const ALL: [Role; 6] = [Role::LowerLimit, Role::UpperLimit, Role::Still, Role::Flowing, Role::Pulling, Role::Running];

    /// The class of its elements.
    pub const fn class(self) -> &'static str {
        match self {
            Role::LowerLimit => "lower-limit",
            Role::UpperLimit => "upper-limit",
            Role::Still => "still",
            Role::Flowing => "flowing",
            Role::Pulling => "pulling",
            Role::Running => "running",
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
