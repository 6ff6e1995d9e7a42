# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# ramplight_translation(FILE.ts FILE.qm): the words of a language, as the program loads them. lupdate
# puts what a member function says into the context of its class; say() looks for all of it in one.
find_package(Qt6 REQUIRED COMPONENTS LinguistTools)

function(ramplight_translation from to)
    get_filename_component(folder ${to} DIRECTORY)
    get_filename_component(name ${from} NAME)
    add_custom_command(
        OUTPUT ${to}
        COMMAND ${CMAKE_COMMAND} -E make_directory ${folder}
        COMMAND sed "s|<name>ramplight::[^<]*</name>|<name>ramplight</name>|" ${from} > ${to}.${name}
        COMMAND Qt6::lrelease -silent ${to}.${name} -qm ${to}
        DEPENDS ${from}
        COMMENT "Words of ${name}"
        VERBATIM)
endfunction()
