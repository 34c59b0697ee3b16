"""Heat loss of houses: U-values and design loads."""
