// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick

// The way between the screens: a trail that starts at the wall. Main.qml owns the one that there
// is and hands it to every screen; it shows what `screen` says.
//
// A screen is a file XScreen.qml in this folder that fills its parent and has
//   required property Shell shell
//   required property Navigator navigator
//   required property string carId            (Car, Operation, WalkRound, Release, Record, Review;
//                                              Transcripts has it, empty for all cars)
//   required property int operationId         (Operation; WalkRound has it, 0 for an appraisal)
// It opens what it needs from the shell in Component.onCompleted. A screen is made when the trail
// comes to it and destroyed when the trail leaves it, so what must outlive a look at another screen
// belongs into its view model. Use ScreenFrame as its root.
//
//   screen: "Wall", "Car", "Operation", "WalkRound", "Release", "Record", "Arrival", "Staff", "Settings", "Bays",
//   "WhatIf", "MyNext", "Transcripts", "Review";
//   carId, operationId
//   depth: screens on the trail, the wall not counted
QtObject {
    id: root

    readonly property string screen: trail.screens.length > 0 ? trail.screens[trail.screens.length - 1] : "Wall"
    readonly property string carId: trail.cars.length > 0 ? trail.cars[trail.cars.length - 1] : ""
    readonly property int operationId: trail.operations.length > 0 ? trail.operations[trail.operations.length - 1] : 0
    readonly property int depth: trail.screens.length

    readonly property list<string> forAll: ["Car", "Operation", "Record", "Bays"]

    // The trail went somewhere; the properties above say where.
    signal moved

    function openCar(carId: string): void {
        root.go("Car", carId, 0)
    }

    function openOperation(carId: string, operationId: int): void {
        root.go("Operation", carId, operationId)
    }

    // operationId: the work during which something is found; 0 for the appraisal.
    function openWalkRound(carId: string, operationId: int): void {
        root.go("WalkRound", carId, operationId)
    }

    function openRelease(carId: string): void {
        root.go("Release", carId, 0)
    }

    // The record takes the place of the release that led to it: back leads to the car.
    function openRecord(carId: string): void {
        if (root.screen === "Release")
            root.cut(root.depth - 1)
        root.go("Record", carId, 0)
    }

    function openArrival(): void {
        root.go("Arrival", "", 0)
    }

    // Spoken walk-rounds; of a car, or with an empty carId of all.
    function openTranscripts(carId: string): void {
        root.go("Transcripts", carId, 0)
    }

    function openReview(carId: string): void {
        root.go("Review", carId, 0)
    }

    function openStaff(): void {
        root.go("Staff", "", 0)
    }

    function openBays(): void {
        root.go("Bays", "", 0)
    }

    function openWhatIf(): void {
        root.go("WhatIf", "", 0)
    }

    function openMyNext(): void {
        root.go("MyNext", "", 0)
    }

    function openSettings(): void {
        root.go("Settings", "", 0)
    }

    function back(): void {
        if (root.depth === 0)
            return
        root.cut(root.depth - 1)
        root.moved()
    }

    function home(): void {
        root.cut(0)
        root.moved()
    }

    // The trail in words, for restore() after the kiosk had to be started again.
    function described(): string {
        return JSON.stringify({ screens: trail.screens, cars: trail.cars, operations: trail.operations })
    }

    // Goes as far along it as a screen needs nobody signed in: who was there is not known any more.
    function restore(described: string): void {
        let was = null
        try {
            was = JSON.parse(described)
        } catch (fault) {
            return
        }
        if (was === null || !Array.isArray(was.screens) || !Array.isArray(was.cars) || !Array.isArray(was.operations))
            return
        for (let at = 0; at < was.screens.length && root.forAll.includes(String(was.screens[at])); ++at)
            root.go(String(was.screens[at]), String(was.cars[at] ?? ""), Number(was.operations[at] ?? 0))
    }

    // Going to a screen that is already on the trail goes back to it.
    function go(screen: string, carId: string, operationId: int): void {
        for (let at = 0; at < root.depth; ++at) {
            if (trail.screens[at] === screen && trail.cars[at] === carId && trail.operations[at] === operationId) {
                root.cut(at + 1)
                root.moved()
                return
            }
        }
        trail.screens = trail.screens.concat([screen])
        trail.cars = trail.cars.concat([carId])
        trail.operations = trail.operations.concat([operationId])
        root.moved()
    }

    function cut(depth: int): void {
        trail.screens = trail.screens.slice(0, depth)
        trail.cars = trail.cars.slice(0, depth)
        trail.operations = trail.operations.slice(0, depth)
    }

    readonly property QtObject trail: QtObject {
        id: trail

        property var screens: []
        property var cars: []
        property var operations: []
    }
}
