/* box_joint_sums.h: the sums of a row of box-joint fingers, as pure functions of numbers. Lengths mm. Owns nothing.
   May be included by src/proof and its tests. */
#ifndef FETTLE_PROOF_BOX_JOINT_SUMS_H
#define FETTLE_PROOF_BOX_JOINT_SUMS_H

#include "proof.h"

/* Judgement of this program, printed on the sheets. */
#define BOX_SEAT_HALF_WIDTH 0.01 /* how far a slot may sit off the key each time, rectangular [mm] */
#define BOX_FIT_LOW 0.05         /* slot less finger for a glued joint [mm] (handbook of the trade, from memory) */
#define BOX_FIT_HIGH 0.15

/* One finger and one slot, from n fingers, first face of the first to last face of the last. */
double box_joint_pitch(int fingers, double got, double finger);

/* The key is moved by `toward` mm toward the cutter (negative: away): each finger becomes that much narrower, the fit
   that much looser, the slots stay. */
enum box_answer { BOX_LEAVE, BOX_MOVE_KEY, BOX_CHANGE_CUTTER };
struct box_remedy {
    enum box_answer answer;
    double toward;       /* move of the key [mm] */
    double fit_after;    /* slot - finger once the key was moved [mm]; NAN: slot not measured */
    double cutter_wider; /* how much wider the cutter must be [mm]; negative: narrower; 0 unless BOX_CHANGE_CUTTER */
};
/* e of the pitch; U of it; fit c and U of it, NAN where the slot was not measured. */
struct box_remedy box_joint_remedy(double error, double error_u, double tolerance, double fit, double fit_u);

#endif
