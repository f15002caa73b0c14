/* words/number.h: how each kind of number is printed, in mm and in inch jobs. Private to src/words. */
#ifndef FETTLE_WORDS_NUMBER_H
#define FETTLE_WORDS_NUMBER_H

#include "words.h"

/* Decimal with a true minus, never "-0"; inch style has no zero before the point. */
void number_decimal(struct text *out, double v, int places, bool plus_sign, bool inch_style);
/* The same without trailing zeros, but with at least `least` places. */
void number_trimmed(struct text *out, double v, int places, int least, bool inch_style);
/* Inches as whole and fraction in 64ths, lowest terms; the decimal beside it where that loses more than 0.002 in. */
void number_inch_size(struct text *out, double inches);
/* Three significant digits, digits after the point in groups of three: 0.000 140. */
void number_grouped(struct text *out, double v);
/* Decimal places at which an expanded uncertainty keeps two significant digits, at most `most`. */
int number_places_for_u(double u, int most);
/* Rounded up at that place; what lies within 1e-9 of the place is not pushed up. */
double number_round_up(double v, int places);

#endif
