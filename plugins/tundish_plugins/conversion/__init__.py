"""The conversion of a house from open-vented to sealed and unvented, as jobs."""
