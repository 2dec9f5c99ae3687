# --- Lines at the foot, which say how to read the picture --------------------------------
FOOTS = phone ? PHONE_FOOTS : WIDE_FOOTS
FOOT = 8 + 17 * FOOTS
foot(k) = phone ? PHONE_FOOT[k] : WIDE_FOOT[k]
foot_y(k) = HEIGHT - 12 - 17 * (FOOTS - k)
