"""Words said otherwise, parted or put in order before a phrase is looked for, or where none was found."""
