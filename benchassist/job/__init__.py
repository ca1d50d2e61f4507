"""One pair of spectacles and all that was ordered, read, judged, corrected and signed."""
