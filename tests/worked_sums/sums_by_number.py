"""The trade's worked sums by number, each with the tests that hold it, and what of it waits until rows are worked.

Numbers: 1 gauge to counts and back, 2 gauge unit and state, 3 repeats, 4 offset fabrics, 5 sideways ribbing, 6 pick-up along
rib, 7 pick-up along row-ends, 8 increases in rounds, 9 in rows, 10 decreases, 11 two rates, 12 what "every 4th row" counts,
13 sleeve taper, 14 crowns and flat circles, 15 yoke join, 16 yoke depth and decreases, 17 raglan, 18 set-in armhole, 19 sleeve
cap, 20 necklines, 21 head opening, 22 length and row gauge, 23 yarn, 24 buttonholes, 25 bust with a front opening, 26 unit
pairs, 27 grade rules, 28 foundations and turning chains. `test_sums_by_number` holds that each test named here is there.
"""

TESTS: dict[str, dict[str, str]] = {
    "M1": {
        "sizing/test_trade_sums": "gauge_to_counts_and_back",
        "worked_sums/test_gauge_and_rounding": (
            "rounding_to_whole_repeats_is_at_most_half_a_repeat_off the_largest_error_at_17_to_ten_centimetres "
            "only_the_achieved_length_is_printed"
        ),
    },
    "M2": {
        "sizing/test_trade_sums": "a_gauge_over_four_inches_is_no_gauge_over_ten_centimetres",
        "worked_sums/test_gauge_and_rounding": "a_gauge_names_the_state_it_was_measured_in",
    },
    "M3": {
        "sizing/test_trade_sums": "rounding_to_a_repeat_with_its_edges",
        "worked_sums/test_gauge_and_rounding": (
            "in_rounds_the_tie_goes_to_the_larger_count selvedges_that_vanish_in_the_seam "
            "size_steps_below_the_repeat_stand_still_or_jump"
        ),
    },
    "M4": {
        "worked_sums/test_offset_fabric": (
            "odd_or_even_by_the_way_of_working a_spiral_whose_rounds_end_with_a_chain_is_a_ring_of_one_fewer "
            "the_start_of_such_a_spiral_moves_one_place_a_round both_forms_of_rows_do_not_mix "
            "the_chain_of_an_odd_offset_row pairs_in_an_odd_offset_round"
        ),
    },
    "M5": {
        "sizing/test_trade_sums": "a_brim_of_sideways_ribbing",
        "worked_sums/test_ribbing_and_picking_up": "a_sewn_brim_loses_a_row_and_still_passes_over_the_head",
    },
    "M6": {
        "sizing/test_trade_sums": "picking_up_along_a_rib_edge",
        "plans/test_pick_up": "walking_along_the_edge an_edge_for_a_count",
        "worked_sums/test_ribbing_and_picking_up": (
            "a_rib_that_gathers_a_full_skirt three_ways_to_a_total_of_a_given_multiple "
            "a_seam_stitch_makes_every_total_odd the_half_stitch_of_a_rate_is_reported_not_rounded "
            "the_formula_and_the_plan_pick_up_the_same"
        ),
    },
    "M7": {
        "plans/test_pick_up": "sc_along_hdc_rows rates_against_every_rate_there_is",
        "worked_sums/test_ribbing_and_picking_up": (
            "single_crochet_along_half_double_rows rules_of_thumb_along_row_ends rows_that_are_no_whole_groups_are_said"
        ),
    },
    "M8": {
        "plans/test_evenly": "nine_increases_in_a_round_of_91 the_spread_order",
        "worked_sums/test_shaping": "nine_increases_in_a_round_of_91 formulas_and_plans_place_shapings_alike",
    },
    "M9": {
        "plans/test_evenly": (
            "six_increases_in_a_row_of_74 equal_ends_move_the_odd_stitch_into_the_middle_gap whole_gaps_at_the_ends"
        ),
        "worked_sums/test_shaping": "six_increases_in_a_row_of_74",
    },
    "M10": {
        "plans/test_evenly": "sixteen_decreases_in_a_round_of_150 seven_decreases_in_a_row_of_88",
        "worked_sums/test_shaping": (
            "sixteen_decreases_in_a_round_of_150 seven_decreases_in_a_row_of_88 "
            "decreases_that_take_more_than_there_is decreases_of_an_offset_fabric_are_counted_in_pairs"
        ),
    },
    "M11": {
        "plans/test_two_rates": "eleven_shapings_in_forty_rows small_sections_against_every_choice_of_rows",
        "worked_sums/test_shaping": (
            "eleven_shapings_in_forty_rows shapings_that_do_not_fit_have_no_interval "
            "formulas_and_plans_agree_on_two_rates sizes_stand_side_by_side"
        ),
    },
    "M12": {
        "plans/test_two_rates": "every_fourth_row_five_times_read_both_ways rs_rows_only",
        "worked_sums/test_shaping": (
            "every_fourth_row_five_times_is_17_or_20_rows odd_first_rows_and_even_intervals_keep_to_the_right_side "
            "every_row_shapings_are_odd_in_all_sizes"
        ),
    },
    "M13": {
        "plans/test_two_rates": "a_sleeve_from_39_to_75",
        "worked_sums/test_shaping": ("a_sleeve_from_39_to_75 a_difference_that_is_no_whole_number_of_rounds_is_found"),
    },
    "M14": {
        "plans/test_yoke": "a_crown_of_88_in_eight_sections flat_rates crowns_of_a_hat_in_five_sizes",
        "worked_sums/test_crowns_and_yokes": (
            "stitches_added_in_each_round_of_a_flat_circle a_crown_of_88_stitches_in_eight_sections "
            "nothing_is_worked_into_no_stitches formulas_and_plans_agree_on_crowns"
        ),
    },
    "M15": {
        "worked_sums/test_crowns_and_yokes": (
            "body_and_sleeves_joined_for_a_yoke a_join_that_forgets_the_bridging_chains"
        ),
        "worked_sums/test_offset_fabric": (
            "a_yoke_of_an_offset_fabric_needs_an_odd_bridge_over_odd_sleeves skips_that_differ_count_into_the_bridge"
        ),
    },
    "M16": {
        "plans/test_yoke": "208_pairs_down_to_53_in_seven_rounds the_percentage_rules a_round_that_gathers_is_named",
        "worked_sums/test_crowns_and_yokes": (
            "a_yoke_by_percentages percentages_fail_at_the_ends_of_a_wide_range 208_pairs_down_to_53_in_seven_rounds "
            "formulas_and_plans_agree_on_yokes"
        ),
    },
    "M17": {
        "plans/test_raglan": "fifteen_rounds_every_second separate_rates the_levers_where_it_does_not_fit",
        "worked_sums/test_raglans_armholes_and_caps": (
            "a_raglan_of_fifteen_full_rounds a_raglan_with_a_rate_for_the_body_and_one_for_the_sleeves "
            "a_raglan_that_has_too_few_rounds_is_found_in_its_size "
            "a_raglan_is_possible_where_the_two_limits_allow_it"
        ),
    },
    "M18": {
        "plans/test_armhole": "armholes_of_a_waistcoat_in_ten_sizes armholes_row_by_row",
        "worked_sums/test_raglans_armholes_and_caps": "an_armhole_that_loses_seventeen_stitches_a_side",
    },
    "M19": {
        "worked_sums/test_raglans_armholes_and_caps": (
            "a_sleeve_cap_against_its_armhole the_slopes_by_pythagoras fifteen_decreases_in_a_cap_of_eighteen_rows "
            "a_cap_that_puckers_or_pulls_is_found cap_heights_by_the_bust "
            "the_error_of_a_cap_grows_with_the_row_gauge"
        ),
    },
    "M20": {
        "plans/test_neckline": "v_necks_of_a_waistcoat_in_ten_sizes a_round_neck_in_steps",
        "worked_sums/test_necklines_and_heads": (
            "a_v_of_nine_decreases_in_thirty_rows formulas_and_plans_agree_on_v_necks "
            "a_round_neck_of_thirty_in_steps short_rows_raise_a_back_neck"
        ),
    },
    "M21": {
        "worked_sums/test_necklines_and_heads": (
            "the_head_passes_at_every_line_of_a_neck a_relaxed_neckband_of_nine_tenths_of_the_head "
            "the_largest_head_of_a_size_is_the_one_that_must_pass"
        ),
    },
    "M22": {
        "sizing/test_trade_sums": "a_row_gauge_that_drifts",
        "worked_sums/test_lengths_and_yarn": ("a_length_planned_again_keeps_to_odd_or_even work_even_needs_an_end"),
    },
    "M23": {
        "worked_sums/test_lengths_and_yarn": (
            "yarn_by_counting_stitches a_scale_out_of_bounds_is_a_weight_or_a_count_that_is_wrong yarn_by_area "
            "yardage_does_not_fall"
        ),
        "measures/test_yarn_sum": "a_mesh_with_edges_of_single_crochet",
        "simulation/test_yarn_from_rows": "a_sample_scales_every_size the_sum_is_told",
    },
    "M24": {
        "plans/test_buttonholes": "five_holes_in_37_stitches",
        "worked_sums/test_buttonholes_and_fronts": (
            "five_holes_along_37_stitches formulas_and_plans_agree_on_buttonholes"
        ),
    },
    "M25": {
        "sizing/test_trade_sums": "a_bust_with_a_front_opening",
        "worked_sums/test_buttonholes_and_fronts": (
            "a_front_is_half_of_the_back_less_half_of_the_band a_pullover_in_the_round_has_no_seam"
        ),
    },
    "M26": {
        "measures/test_print_grid": (
            "each_unit_comes_from_the_unrounded_length a_printed_pair_stays_within_the_two_half_steps"
        ),
        "worked_sums/test_unit_pairs": (
            "both_units_come_from_the_unrounded_length a_typed_pair_is_true_within_the_two_half_steps"
        ),
    },
    "M27": {
        "worked_sums/test_grade": (
            "an_upper_arm_as_a_base_and_steps an_upper_arm_step_by_step "
            "target_and_achieved_steps_of_a_waistcoat a_body_measure_that_turns_back_is_found"
        ),
    },
    "M28": {
        "standards/test_heights": (
            "foundations_by_the_trades_table first_rows_of_published_pages whether_a_turning_chain_counts"
        ),
        "worked_sums/test_foundations": (
            "a_row_of_73_from_its_foundation whether_a_turning_chain_counts_is_said_by_the_pattern "
            "a_chainless_foundation_has_no_chain_more"
        ),
    },
}
"""Number → test module → the tests in it, without `test_`."""

LEFT_FOR_ROWS: dict[str, str] = {
    "M4": "that a written set-up row and its pattern rows are of one form; that a part-round flips the kind",
    "M6": "that a correction round is printed only in the sizes that need it and its counts follow",
    "M8": "that increases of one round do not stand above those of the round before",
    "M10": "that what a row says of its last stitches is what is left of them",
    "M12": "that the phrase printed means the rows of the plan; that a section ends on its labelled side",
    "M15": "that the first live stitch of a written join is of the right kind",
    "M20": "that the two sides of a written neck mirror each other; that a single turn flips the kind",
    "M22": "that nothing after a stretch which the maker may change depends on its row number",
    "M23": "that the stitches of a size are counted from its rows, not given",
    "M24": "that the row after the buttonholes restores each hole's stitches",
    "M28": "that a written foundation gives Row 1; that a turning chain counts in one way in all rows of a stitch",
}
"""Number → what of it is a claim on written rows, which have to be worked stitch by stitch to judge it."""
