"""Care of the heating water: cleaning, inhibitor, hardness and frost."""
