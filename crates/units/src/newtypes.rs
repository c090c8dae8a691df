//! Values that share a dimension and must not be mixed: the two depths, and pressure above nothing
//! against pressure above the atmosphere.

/// Length along the hole from the datum: volumes and friction go by it.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct MeasuredDepth(f64);

impl MeasuredDepth {
    /// From metres.
    pub const fn new(metres: f64) -> MeasuredDepth {
        MeasuredDepth(metres)
    }

    /// In metres.
    pub const fn metres(self) -> f64 {
        self.0
    }
}

/// Vertical distance below the datum: hydrostatic pressure goes by it and by nothing else.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct VerticalDepth(f64);

impl VerticalDepth {
    /// From metres.
    pub const fn new(metres: f64) -> VerticalDepth {
        VerticalDepth(metres)
    }

    /// In metres.
    pub const fn metres(self) -> f64 {
        self.0
    }
}

/// Pressure above nothing: gas laws want it, gauges do not show it.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct AbsolutePressure(f64);

impl AbsolutePressure {
    /// From pascals above nothing.
    pub const fn new(pascals: f64) -> AbsolutePressure {
        AbsolutePressure(pascals)
    }

    /// From a gauge reading and the pressure of the atmosphere around the gauge. [Pa]
    pub const fn from_gauge(gauge: f64, atmosphere: f64) -> AbsolutePressure {
        AbsolutePressure(gauge + atmosphere)
    }

    /// In pascals above nothing.
    pub const fn pascals(self) -> f64 {
        self.0
    }

    /// What a gauge in this atmosphere shows. [Pa]
    pub const fn to_gauge(self, atmosphere: f64) -> f64 {
        self.0 - atmosphere
    }
}
