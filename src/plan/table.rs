//! A table of the plan file: what its struct holds, and each member as a field, said once.
//!
//! To add a field: a line in the table that it belongs to. Reading, writing, the editor, the schema,
//! the messages and the help follow.

use super::value::Slot;

/// A table of a plan, whose members are found by their keys.
pub(super) trait Item {
    /// The member with this key.
    fn slot(&self, key: &str) -> Option<&dyn Slot>;
    /// The same, to be written to.
    fn slot_mut(&mut self, key: &str) -> Option<&mut dyn Slot>;
}

/// Declare a table: for each field its help, then the member with its type and default, the key in the
/// file, the label, what it accepts and what it means when it is absent. A default that is not given is
/// that of the type. A dotted member belongs to one of the structs named after `with`.
macro_rules! table {
    (@value $type:ty) => { <$type>::default() };
    (@value $type:ty, $default:expr) => { $default };
    (
        $(#[$meta:meta])*
        $name:ident in $section:ident $(with { $($part:ident: $whole:ty),* })? {
            $(
                #[doc = $help:literal]
                $slot:ident $(. $inner:ident)? $(: $type:ty $(= $default:expr)?)? =>
                    $key:literal, $label:literal, $kind:expr, $absent:ident;
            )*
        }
    ) => {
        $(#[$meta])*
        #[derive(Clone, Debug, PartialEq)]
        pub struct $name {
            $($(#[doc = $help] pub $slot: $type,)?)*
            $($(#[allow(missing_docs)] pub $part: $whole,)*)?
        }

        impl Default for $name {
            fn default() -> Self {
                $name {
                    $($($slot: $crate::plan::table::table!(@value $type $(, $default)?),)?)*
                    $($($part: <$whole>::default(),)*)?
                }
            }
        }

        impl $name {
            pub(super) const FIELDS: &'static [$crate::plan::field::Field] = &[$($crate::plan::field::Field {
                section: $crate::plan::section::Section::$section,
                key: $key,
                label: $label,
                kind: $kind,
                absent: $crate::plan::field::Absent::$absent,
                help: $help.trim_ascii_start(),
            },)*];
        }

        impl $crate::plan::table::Item for $name {
            fn slot(&self, key: &str) -> Option<&dyn $crate::plan::value::Slot> {
                match key {
                    $($key => Some(&self.$slot $(.$inner)?),)*
                    _ => None,
                }
            }

            fn slot_mut(&mut self, key: &str) -> Option<&mut dyn $crate::plan::value::Slot> {
                match key {
                    $($key => Some(&mut self.$slot $(.$inner)?),)*
                    _ => None,
                }
            }
        }
    };
}

pub(super) use table;
