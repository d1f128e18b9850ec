//! Names of points that mean a device and need no run to exist.

/// Posts of the service battery.
pub const SERVICE_BATTERY: &str = "service battery";
/// Posts of the starter battery.
pub const STARTER_BATTERY: &str = "starter battery";
/// The DC-DC charger (or relay): its input on the starter side, its output on the service side.
pub const CHARGER: &str = "charger";
/// The low-voltage disconnect.
pub const CUT_OFF: &str = "cut-off";
/// In a reading's `with`: the charger feeds the service battery; what is
/// measured is the current out of its output.
pub const CHARGING: &str = "charging";
