"""From statements to the typed core: names, units, kinds, phrases, claims, cases."""
