"""What the words of claims show by themselves: nouns, references, degrees, transitions."""
