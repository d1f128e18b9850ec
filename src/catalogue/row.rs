//! What every row of a profile file can do: tell its key and its values, and judge itself.

use super::faults::Faults;
use super::sourced::Value;
use crate::quantity::Quantity;
use serde::de::DeserializeOwned;
use toml::de::DeTable;

/// A row of a profile file, or a part of one that states its own sources.
pub(super) trait Part {
    /// Each value that is there, with its source.
    fn values(&self) -> Vec<Value<'_>> {
        Vec::new()
    }
    /// Report what is wrong with it.
    fn check(&self, faults: &mut Faults);
}

/// What a profile file holds.
pub(super) trait Row: Part + DeserializeOwned {
    /// Name of the field that holds the key, for messages.
    const KEY: &'static str = "";
    /// Every key that it may have in the file, those of its source aside; none where its reader says so itself.
    const KEYS: &'static [&'static str] = &[];
    /// Those of the parts that it holds, by the key of the part.
    fn parts_keys() -> &'static [(&'static str, &'static [&'static str])] {
        &[]
    }
    /// What tells it from the others of its kind; empty where there is but one.
    fn key(&self) -> String {
        String::new()
    }
    /// Problems of each part on its own, when the whole cannot be read.
    fn part_errors(_whole: &DeTable<'_>) -> Vec<toml::de::Error> {
        Vec::new()
    }
}

/// A field by which rows are told apart.
pub(super) trait Key {
    /// Its text.
    fn text(&self) -> String;
}

impl Key for String {
    fn text(&self) -> String {
        self.clone()
    }
}

impl<Q: Quantity> Key for Q {
    fn text(&self) -> String {
        self.number().to_string()
    }
}

/// Declare a row, or a part of one: its key, plain fields first, then the values with their keys in
/// the file and the unit of those that no type carries. After `=>` stands what a field must satisfy,
/// by the name of a check of [`Faults`]; after `and` a method that checks fields against each other; after `holds` the
/// parts that are rows themselves, by their key.
macro_rules! row {
    (
        $(#[$meta:meta])*
        $name:ident, $from:ident $(by $by:ident $(as $by_key:literal)?)? {
            $($(#[$plain_meta:meta])*
            $plain:ident: $plain_type:ty $(= $plain_key:literal)? $(=> $plain_check:ident $(($($plain_arg:expr),*))?)?,)*
        }
        values $(of $row:ident)? {
            $($(#[$value_meta:meta])*
            $value:ident: $type:ty = $key:literal $(in $unit:literal)? $(=> $check:ident $(($($arg:expr),*))?)?,)*
        }
        $(and $more:ident)?
        $(holds $($part_key:literal of $part_type:ty),+)?
    ) => {
        $(#[$meta])*
        #[derive(Clone, Debug, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        pub struct $name {
            $($(#[$plain_meta])* $(#[serde(rename = $plain_key)])? pub $plain: $plain_type,)*
            $($(#[$value_meta])* #[serde(rename = $key)] pub $value: $type,)*
            /// Where each value comes from.
            #[serde(flatten)]
            pub from: $from,
        }

        #[doc = concat!("Where each value of a [`", stringify!($name), "`] comes from.")]
        #[derive(Clone, Debug, Default)]
        #[allow(missing_docs)]
        pub struct $from {
            $(pub $value: $crate::catalogue::provenance::Provenance,)*
        }

        impl<'de> serde::Deserialize<'de> for $from {
            fn deserialize<D: serde::Deserializer<'de>>(source: D) -> Result<Self, D::Error> {
                let stated = $crate::catalogue::sourced::Stated::deserialize(source)?;
                stated.names(&[$($key),*])?;
                Ok($from { $($value: stated.of($key)?,)* })
            }
        }

        impl $crate::catalogue::row::Part for $name {
            fn values(&self) -> Vec<$crate::catalogue::sourced::Value<'_>> {
                use $crate::catalogue::sourced::{Show, Value};
                let all = [$((
                    $key,
                    stringify!($value),
                    self.$value.shown(concat!($($unit)?)),
                    &self.from.$value,
                )),*];
                all.into_iter()
                    .filter_map(|(key, field, shown, from)| Some(Value { key, field, shown: shown?, from }))
                    .collect()
            }

            fn check(&self, faults: &mut $crate::catalogue::faults::Faults) {
                $(let $row = self;)?
                $(
                    let _field = [$($plain_key,)? stringify!($plain)][0];
                    $(faults.$plain_check(_field, &self.$plain $($(, $plain_arg)*)?);)?
                )*
                $($(faults.$check($key, &self.$value $($(, $arg)*)?);)?)*
                $(self.$more(faults);)?
                faults.sources(&self.values());
            }
        }

        impl $crate::catalogue::row::Row for $name {
            const KEYS: &'static [&'static str] =
                &[$([$($plain_key,)? stringify!($plain)][0],)* $($key,)*];
            $(
                fn parts_keys() -> &'static [(&'static str, &'static [&'static str])] {
                    &[$(($part_key, <$part_type as $crate::catalogue::row::Row>::KEYS)),+]
                }
            )?
            $(
                const KEY: &'static str = [$($by_key,)? stringify!($by)][0];
                fn key(&self) -> String {
                    $crate::catalogue::row::Key::text(&self.$by)
                }
            )?
        }
    };
}

pub(super) use row;
