# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# One target per folder, so that the linker keeps the direction of dependencies.

# No form files here, and few layers with something for moc: looking for them costs a step for every target.
set(CMAKE_AUTOUIC OFF)
set(CMAKE_AUTOMOC OFF)

option(RAMPLIGHT_SANITIZE "Build with address and undefined-behaviour sanitizers" OFF)
option(RAMPLIGHT_QML_AHEAD "Compile QML ahead of time: starts sooner, builds longer" ON)
set(RAMPLIGHT_QML_OPTIONS)
if(NOT RAMPLIGHT_QML_AHEAD)
    set(RAMPLIGHT_QML_OPTIONS NO_CACHEGEN)
endif()
option(RAMPLIGHT_JOIN "Compile the units of a layer 25 at a time" OFF)
option(RAMPLIGHT_LINT "Add one unit per layer that includes all its headers" OFF)

# GCC's warnings are the everyday build's business: clang-tidy and the sanitizers' Clang are not given
# them.
add_library(ramplight_warnings INTERFACE)
if(NOT RAMPLIGHT_LINT AND CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    target_compile_options(ramplight_warnings INTERFACE
        -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wnon-virtual-dtor -Werror)
endif()
if(RAMPLIGHT_SANITIZE)
    add_compile_options(-fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
    add_link_options(-fsanitize=address,undefined)
    # The address sanitizer stops at a null pointer all the same, and x86 reads what is not aligned.
    # Both are looked for where there is time: by the fuzzers. Without them building takes a sixth
    # less time and the tests a third.
    if(NOT RAMPLIGHT_FUZZ)
        add_compile_options(-fno-sanitize=null,alignment)
    endif()
    # RapidJSON 1.1 has a template that Clang refuses as soon as it reads it; nobody uses it.
    if(CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
        add_compile_options(-fdelayed-template-parsing -Wno-delayed-template-parsing-in-cxx20
            -fsanitize-ignorelist=${PROJECT_SOURCE_DIR}/app/cmake/sanitize.ignore)
    endif()
endif()

# The shared precompiled header. Measured on two cores: 17 s once, then 1.8 s instead of 5.3 s for a
# small unit of the domain.
file(CONFIGURE OUTPUT ${PROJECT_BINARY_DIR}/ramplight_pch.cpp CONTENT "// Carries the precompiled header.\n")
add_library(ramplight_pch OBJECT ${PROJECT_BINARY_DIR}/ramplight_pch.cpp)
target_link_libraries(ramplight_pch PRIVATE ramplight_warnings Qt6::Core tl::expected)
target_include_directories(ramplight_pch PRIVATE ${PROJECT_SOURCE_DIR}/app)
target_precompile_headers(ramplight_pch PRIVATE ${PROJECT_SOURCE_DIR}/app/cmake/precompiled.h)

# ramplight_precompile(<target> [FROM <target>] [HEADERS ...]) lets a target of ours use it, or that of
# another target, or one of its own with the shared headers and more.
function(ramplight_precompile target)
    cmake_parse_arguments(ARG "" "FROM" "HEADERS" ${ARGN})
    if(ARG_HEADERS)
        target_precompile_headers(${target} PRIVATE
            ${PROJECT_SOURCE_DIR}/app/cmake/precompiled.h ${ARG_HEADERS})
    elseif(ARG_FROM)
        target_precompile_headers(${target} REUSE_FROM ${ARG_FROM})
    else()
        target_precompile_headers(${target} REUSE_FROM ramplight_pch)
    endif()
endfunction()

# Units that are compiled as one read their headers and make their templates once: the kiosk's layer
# took 172 s of a core instead of 415 by ten, by 25 a tenth less than that, the domain a fifth. Where somebody works on one unit again and again,
# -DRAMPLIGHT_JOIN=OFF is quicker. The lint build never joins: there a unit that lacks an include is seen.
function(ramplight_join_units target)
    if(RAMPLIGHT_JOIN AND NOT RAMPLIGHT_LINT)
        set_target_properties(${target} PROPERTIES UNITY_BUILD ON UNITY_BUILD_BATCH_SIZE 25)
        # To GCC what a joined unit keeps to itself looks like a header's.
        if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
            target_compile_options(${target} PRIVATE -Wno-subobject-linkage)
        endif()
    endif()
endfunction()

# Our warnings are not for what Qt's tools write (QML compiler, type registration, resources).
function(ramplight_quiet_generated target)
    get_target_property(sources ${target} SOURCES)
    get_target_property(binary ${target} BINARY_DIR)
    foreach(source ${sources})
        cmake_path(IS_PREFIX binary "${source}" NORMALIZE generated)
        if(generated AND source MATCHES "\\.cpp$")
            set_property(SOURCE ${source} APPEND PROPERTY COMPILE_OPTIONS -w)
        endif()
    endforeach()
endfunction()

# ramplight_moc_headers(<target> [QML] <header>...) lets moc read headers with QML's macros and nothing that they
# include: 0.01 s a header, where AUTOMOC reads all of Qt for each in 0.4 s. One unit includes all that it
# writes, and for a QML module what registers its types: either alone reads every header.
function(ramplight_moc_headers target)
    cmake_parse_arguments(ARG "QML" "" "" ${ARGN})
    get_target_property(macros Qt6::QmlIntegration INTERFACE_INCLUDE_DIRECTORIES)
    list(FILTER macros INCLUDE REGEX "QtQmlIntegration$")
    set(folder ${CMAKE_CURRENT_BINARY_DIR}/${target}_moc)
    set(written)
    foreach(header ${ARG_UNPARSED_ARGUMENTS})
        cmake_path(ABSOLUTE_PATH header)
        cmake_path(GET header STEM unit)
        file(STRINGS ${header} own REGEX "Q_(OBJECT|GADGET|NAMESPACE)" LIMIT_COUNT 1)
        if(own)
            set(moc ${folder}/moc_${unit}.cpp)
            add_custom_command(OUTPUT ${moc} ${moc}.json
                COMMAND Qt6::moc --output-json --include ${macros}/qqmlintegration.h -o ${moc} ${header}
                DEPENDS ${header}
                VERBATIM)
            list(APPEND written ${moc})
        else()
            set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${header})
        endif()
    endforeach()
    if(ARG_QML)
        list(TRANSFORM written APPEND ".json" OUTPUT_VARIABLE descriptions)
        qt_extract_metatypes(${target} MANUAL_MOC_JSON_FILES ${descriptions})
        set(registration ${CMAKE_CURRENT_BINARY_DIR}/${target}_qmltyperegistrations.cpp)
        set_source_files_properties(${registration} PROPERTIES HEADER_FILE_ONLY ON)
        list(APPEND written ${registration})
    endif()
    list(TRANSFORM written REPLACE "(.+)" "#include \"\\1\"\n" OUTPUT_VARIABLE includes)
    list(JOIN includes "" includes)
    set(unit ${folder}/${target}_mocs.cpp)
    file(CONFIGURE OUTPUT ${unit} CONTENT "${includes}" @ONLY)
    set_source_files_properties(${unit} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON OBJECT_DEPENDS "${written}")
    target_sources(${target} PRIVATE ${unit})
endfunction()

# What every target of ours gets. The generated sources are known only at the end of its folder.
function(ramplight_common target)
    target_link_libraries(${target} PRIVATE ramplight_warnings)
    cmake_language(EVAL CODE "cmake_language(DEFER CALL ramplight_quiet_generated ${target})")
endfunction()

# ramplight_layer(NAME <layer> [MOC|QML] [RECKONS] SOURCES ... [PUBLIC libs...] [PRIVATE libs...]
#                 [PCH headers...] [PRECOMPILED_FROM target])
# makes ramplight_<layer> with the alias Ramplight::<layer>; includes start at app/. With MOC its headers
# are read for what Qt's meta-object compiler has to write; with QML, too, and it is a QML module. One that
# RECKONS, over pixels or plans, is optimised under the sanitizers, too: its tests take a fifth of the time,
# and it is little to compile. With PCH the layer precompiles the shared header and those of its own, which
# another of the same modules may use.
function(ramplight_layer)
    cmake_parse_arguments(ARG "MOC;QML;RECKONS" "NAME;PRECOMPILED_FROM" "SOURCES;PUBLIC;PRIVATE;PCH" ${ARGN})
    set(target ramplight_${ARG_NAME})
    if(RAMPLIGHT_LINT)
        file(GLOB headers CONFIGURE_DEPENDS *.h)
        list(TRANSFORM headers REPLACE "(.+)" "#include \"\\1\"\n")
        list(JOIN headers "" headers)
        set(all_headers ${CMAKE_CURRENT_BINARY_DIR}/${ARG_NAME}_headers.cpp)
        file(CONFIGURE OUTPUT ${all_headers} CONTENT "${headers}" @ONLY)
        list(APPEND ARG_SOURCES ${all_headers})
    endif()
    add_library(${target} STATIC ${ARG_SOURCES})
    add_library(Ramplight::${ARG_NAME} ALIAS ${target})
    if(ARG_MOC OR ARG_QML)
        list(FILTER ARG_SOURCES INCLUDE REGEX "\\.h$")
        if(ARG_QML)
            list(PREPEND ARG_SOURCES QML)
        endif()
        ramplight_moc_headers(${target} ${ARG_SOURCES})
    endif()
    target_include_directories(${target} PUBLIC ${PROJECT_SOURCE_DIR}/app)
    target_link_libraries(${target} PUBLIC ${ARG_PUBLIC} PRIVATE ${ARG_PRIVATE})
    ramplight_common(${target})
    if(ARG_RECKONS AND RAMPLIGHT_SANITIZE)
        target_compile_options(${target} PRIVATE -O1)
        target_precompile_headers(${target} PRIVATE ${PROJECT_SOURCE_DIR}/app/cmake/precompiled.h)
    else()
        ramplight_precompile(${target} FROM ${ARG_PRECOMPILED_FROM} HEADERS ${ARG_PCH})
    endif()
    ramplight_join_units(${target})
endfunction()

# ramplight_moc_in_units(<target> <source>...) lets moc read each unit that includes its own moc file,
# and nothing else: for what only a test declares, moc needs no header. Measured against AUTOMOC:
# 0.02 s a test instead of 1.5 s.
function(ramplight_moc_in_units target)
    set(folder ${CMAKE_CURRENT_BINARY_DIR}/${target}_moc)
    foreach(source ${ARGN})
        cmake_path(ABSOLUTE_PATH source)
        cmake_path(GET source STEM unit)
        file(STRINGS ${source} own REGEX "^#include \"${unit}\\.moc\"$" LIMIT_COUNT 1)
        if(own)
            add_custom_command(OUTPUT ${folder}/${unit}.moc
                COMMAND Qt6::moc -o ${folder}/${unit}.moc ${source}
                DEPENDS ${source}
                VERBATIM)
            target_sources(${target} PRIVATE ${folder}/${unit}.moc)
            target_include_directories(${target} PRIVATE ${folder})
        endif()
    endforeach()
endfunction()

# Tests of layers without QML, which the sanitizer run builds and runs, and those of `tests/run --long`.
# Neither is part of "all", so that nobody builds what they do not run.
add_custom_target(unit_tests)
add_custom_target(long_tests)
set(RAMPLIGHT_UNIT_FOLDERS domain appraisal planning storage evidence phone access record backup)

# About how many seconds the longest take: they begin first, so that none is left alone at the end.
set(RAMPLIGHT_SECONDS_tst_soak 180)
set(RAMPLIGHT_SECONDS_tst_walkroundscreen 60)
set(RAMPLIGHT_SECONDS_tst_walkroundwork 35)
set(RAMPLIGHT_SECONDS_tst_keycommands 30)
set(RAMPLIGHT_SECONDS_tst_housecommands 25)
set(RAMPLIGHT_SECONDS_tst_photosheet 20)
set(RAMPLIGHT_SECONDS_tst_backupcommands 20)
set(RAMPLIGHT_SECONDS_tst_operationscreen 20)
set(RAMPLIGHT_SECONDS_tst_tidy 15)
# And of those under the sanitizers.
set(RAMPLIGHT_SECONDS_tst_rights 60)
set(RAMPLIGHT_SECONDS_tst_lookback 60)
set(RAMPLIGHT_SECONDS_tst_verifier 60)
set(RAMPLIGHT_SECONDS_tst_catalogueatwork 60)
set(RAMPLIGHT_SECONDS_tst_invariants 55)
set(RAMPLIGHT_SECONDS_tst_shops 55)
set(RAMPLIGHT_SECONDS_tst_standby 50)
set(RAMPLIGHT_SECONDS_tst_rulebreakers 50)
set(RAMPLIGHT_SECONDS_tst_photoalignment 40)
set(RAMPLIGHT_SECONDS_tst_keptphotos 40)
set(RAMPLIGHT_SECONDS_tst_appraisalfaults 35)

# ramplight_test(NAME tst_x SOURCES ... LIBS ... [LABELS ...] [TIMEOUT s] [ENVIRONMENT ...]
#                [PRECOMPILED_FROM target] [TOGETHER [AS tst_y]])
# makes one Qt Test program, or TOGETHER with others of its folder a part of tests_<folder>
# (tests/support/testmain.h), where it may be another test in another environment, and registers it
# with CTest. It is labelled with its folder under tests/; in a unit folder also "unit", unless it is
# "long" or "bench". Long ones run with `tests/run --long` only; benches run alone.
function(ramplight_test)
    cmake_parse_arguments(ARG "TOGETHER" "NAME;AS;TIMEOUT;PRECOMPILED_FROM" "SOURCES;LIBS;LABELS;ENVIRONMENT" ${ARGN})
    if(NOT ARG_TIMEOUT)
        set(ARG_TIMEOUT 120)
    endif()
    if(RAMPLIGHT_SANITIZE)
        math(EXPR ARG_TIMEOUT "${ARG_TIMEOUT} * 4")
    endif()
    cmake_path(GET CMAKE_CURRENT_SOURCE_DIR FILENAME folder)
    list(APPEND ARG_LABELS ${folder})
    if(folder IN_LIST RAMPLIGHT_UNIT_FOLDERS AND NOT "long" IN_LIST ARG_LABELS
       AND NOT "bench" IN_LIST ARG_LABELS)
        list(APPEND ARG_LABELS unit)
    endif()
    list(REMOVE_DUPLICATES ARG_LABELS)

    set(program ${ARG_NAME})
    set(command ${ARG_NAME})
    if(ARG_TOGETHER)
        set(program tests_${folder})
        if(NOT ARG_AS)
            set(ARG_AS ${ARG_NAME})
        endif()
        set(command ${program} ${ARG_AS})
    endif()
    if(NOT TARGET ${program})
        add_executable(${program})
        if(ARG_TOGETHER)
            target_sources(${program} PRIVATE ${PROJECT_SOURCE_DIR}/tests/support/testmain.cpp)
            ramplight_join_units(${program})
        endif()
        target_include_directories(${program} PRIVATE ${PROJECT_SOURCE_DIR}/tests)
        target_compile_definitions(${program} PRIVATE RAMPLIGHT_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
        set_target_properties(${program} PROPERTIES RUNTIME_OUTPUT_DIRECTORY ${CMAKE_CURRENT_BINARY_DIR})
        ramplight_common(${program})
        ramplight_precompile(${program} FROM ${ARG_PRECOMPILED_FROM})
    endif()
    get_target_property(known ${program} SOURCES)
    if(known)
        list(REMOVE_ITEM ARG_SOURCES ${known})
    endif()
    target_sources(${program} PRIVATE ${ARG_SOURCES})
    target_link_libraries(${program} PRIVATE Qt6::Test ${ARG_LIBS})
    ramplight_moc_in_units(${program} ${ARG_SOURCES})
    if("unit" IN_LIST ARG_LABELS)
        add_dependencies(unit_tests ${program})
        set_target_properties(${program} PROPERTIES EXCLUDE_FROM_ALL ON)
    elseif("long" IN_LIST ARG_LABELS)
        add_dependencies(long_tests ${program})
        if(NOT ARG_TOGETHER)
            set_target_properties(${program} PROPERTIES EXCLUDE_FROM_ALL ON)
        endif()
    endif()

    add_test(NAME ${ARG_NAME} COMMAND ${command})
    set_tests_properties(${ARG_NAME} PROPERTIES
        TIMEOUT ${ARG_TIMEOUT}
        LABELS "${ARG_LABELS}"
        ENVIRONMENT "QT_QPA_PLATFORM=offscreen;QT_QUICK_BACKEND=software;QT_MEDIA_BACKEND=ffmpeg;LC_ALL=C.UTF-8;${ARG_ENVIRONMENT}")
    if(DEFINED RAMPLIGHT_SECONDS_${ARG_NAME})
        set_tests_properties(${ARG_NAME} PROPERTIES COST ${RAMPLIGHT_SECONDS_${ARG_NAME}})
    endif()
    if("bench" IN_LIST ARG_LABELS)
        set_tests_properties(${ARG_NAME} PROPERTIES RUN_SERIAL TRUE)
    endif()
endfunction()
