//! A field's value at run time, and how each type of the model gives and takes it.

use super::months::Months;
use super::weekdays::Weekdays;
use super::windows::Windows;
use crate::quantity::Quantity;

/// What a field can hold. Numbers are in the field's own unit.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub enum Value {
    Number(f64),
    Text(String),
    Flag(bool),
    Windows(Windows),
    Weekdays(Weekdays),
    Months(Months),
}

/// A place in the model that a [`Value`] can be read from and written to.
/// Writing a value of the wrong sort changes nothing: the reader has already
/// reported it.
pub trait Slot {
    /// The value, or `None` where the plan leaves the choice to the engine.
    fn read(&self) -> Option<Value>;
    /// Put a value in.
    fn write(&mut self, value: Value);
    /// Leave it to the engine; where the model always has a value nothing changes.
    fn empty(&mut self) {}
}

impl<Q: Quantity> Slot for Q {
    fn read(&self) -> Option<Value> {
        Some(Value::Number(self.number()))
    }
    fn write(&mut self, value: Value) {
        if let Value::Number(n) = value {
            *self = Q::of(n);
        }
    }
}

impl<T: Slot + Default> Slot for Option<T> {
    fn read(&self) -> Option<Value> {
        self.as_ref().and_then(Slot::read)
    }
    fn write(&mut self, value: Value) {
        self.get_or_insert_default().write(value);
    }
    fn empty(&mut self) {
        *self = None;
    }
}

macro_rules! slot {
    ($($type:ty: $variant:ident, $out:expr, $back:expr;)*) => {$(
        impl Slot for $type {
            fn read(&self) -> Option<Value> {
                Some(Value::$variant($out(self)))
            }
            fn write(&mut self, value: Value) {
                if let Value::$variant(v) = value {
                    *self = $back(v);
                }
            }
        }
    )*};
}

slot! {
    u32: Number, |n: &u32| f64::from(*n), |n: f64| n as u32;
    bool: Flag, |b: &bool| *b, |b| b;
    String: Text, |s: &String| s.clone(), |s| s;
    Windows: Windows, |w: &Windows| w.clone(), |w| w;
    Weekdays: Weekdays, |d: &Weekdays| *d, |d| d;
    Months: Months, |m: &Months| *m, |m| m;
}
