// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The first start: this workshop, step by step, or the demo workshop.
FocusScope {
    id: root

    enum Step {
        Choose,
        House,
        You,
        Pin
    }

    required property Shell shell
    readonly property SetupView setup: shell.setup
    readonly property bool tall: height > width
    property int step: SetupScreen.Choose

    function back(): void {
        root.setup.ask.dismiss()
        if (root.step === SetupScreen.Pin)
            root.setup.newPin.reset()
        if (root.step > SetupScreen.Choose)
            root.step -= 1
    }

    function stepFault(): string {
        if (root.step === SetupScreen.House && root.setup.siteName.trim().length === 0)
            return qsTr("the workshop's name")
        if (root.step === SetupScreen.You && root.setup.personName.trim().length === 0)
            return qsTr("your name")
        if (root.step === SetupScreen.Pin && !root.setup.newPin.ready)
            return qsTr("the PIN, twice")
        return ""
    }

    focus: true
    onStepChanged: {
        if (root.step === SetupScreen.Pin)
            pinPad.forceActiveFocus()
        else
            root.forceActiveFocus()
    }

    Rectangle {
        anchors.fill: parent
        color: Theme.ground
    }

    Label {
        id: heading

        anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.margin; topMargin: Theme.module }
        text: root.step === SetupScreen.Choose ? qsTr("Ramplight")
            : root.step === SetupScreen.House ? qsTr("The workshop")
            : root.step === SetupScreen.You ? qsTr("The first person") : qsTr("Your PIN")
        role: root.step === SetupScreen.Choose ? Label.Distance : Label.Title
        paper: false
    }

    Label {
        id: hint

        anchors { left: heading.left; right: heading.right; top: heading.bottom; topMargin: Theme.half }
        text: root.step === SetupScreen.Choose ? qsTr("This wall has no workshop yet.")
            : root.step === SetupScreen.House ? qsTr("Step 1 of 3. The name stands on every handover record.")
            : root.step === SetupScreen.You ? qsTr("Step 2 of 3. You get all rights; add the others afterwards under Staff and bays.")
            : qsTr("Step 3 of 3. It is asked for whenever you sign something.")
        paper: false
        muted: true
        wrapMode: Text.WordWrap
    }

    // ---- this one or the demo

    // A row of cars with work outstanding and work done: what this wall is for.
    Row {
        id: yard

        readonly property list<string> shapes: root.tall ? ["hatch", "suv", "estate"] : ["hatch", "suv", "estate", "saloon", "van", "coupe"]
        readonly property var marks: [{ "front-bumper": 1 }, { "wheel-front-left": 1, "bonnet": 2 }, { "rear-door-right": 1 },
            { "windscreen": 2, "wing-left": 2 }, { "wheel-rear-right": 1, "wheel-front-right": 2 }, { "tailgate": 1 }]

        anchors { horizontalCenter: parent.horizontalCenter; top: hint.bottom; topMargin: Theme.mm(14) }
        visible: choices.visible
        spacing: Theme.mm(16)

        Repeater {
            model: yard.shapes

            delegate: CarOutline {
                required property int index
                required property string modelData

                height: Math.min(Theme.mm(105), choices.y - yard.y - Theme.mm(14))
                width: height * aspect
                shape: modelData
                marks: yard.marks[index]
            }
        }
    }

    Grid {
        id: choices

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; margins: Theme.margin }
        visible: root.step === SetupScreen.Choose && !root.setup.ask.busy
        columns: root.tall ? 1 : 2
        spacing: Theme.module

        SetupChoice {
            width: root.tall ? parent.width : (parent.width - parent.spacing) / 2
            title: qsTr("Set up this workshop")
            words: qsTr("Name, first person, PIN: about two minutes. Everything that follows is real and kept.")
            strong: true
            onTapped: root.step = SetupScreen.House
        }

        SetupChoice {
            width: root.tall ? parent.width : (parent.width - parent.spacing) / 2
            visible: root.setup.hasDemo
            title: qsTr("Look at the demo workshop")
            words: qsTr("Invented cars and people, to try everything on. Marked as demo on every screen and record.")
            onTapped: root.setup.makeDemo()
        }
    }

    Waiting {
        anchors.centerIn: parent
        visible: root.setup.ask.busy
        text: root.setup.ask.what === "demo" ? qsTr("Bringing the demo cars in") : qsTr("Setting up the workshop")
        progress: root.setup.ask.what === "demo" ? root.setup.progress : -1
    }

    // ---- the steps

    Rectangle {
        id: paper

        anchors { left: parent.left; right: parent.right; top: hint.bottom; bottom: foot.top; margins: Theme.margin; topMargin: Theme.module; bottomMargin: Theme.module }
        visible: root.step !== SetupScreen.Choose && !root.setup.ask.busy
        radius: Theme.radius
        color: Theme.paper

        Column {
            anchors { left: parent.left; top: parent.top; margins: Theme.margin }
            width: Math.min(parent.width - 2 * Theme.margin, Theme.mm(230))
            visible: root.step === SetupScreen.House
            spacing: Theme.mm(6)

            Field {
                width: parent.width
                label: qsTr("Name of the workshop")
                text: root.setup.siteName
                maximumLength: 80
                onEdited: text => root.setup.siteName = text
                onAccepted: input.focus = false
            }

            Field {
                width: parent.width
                label: qsTr("Time zone")
                text: root.setup.timeZone
                maximumLength: 60
                onEdited: text => root.setup.timeZone = text
                onAccepted: input.focus = false
            }

            SetupQuestion {
                width: parent.width
                question: qsTr("Traffic keeps to the")
                options: [qsTr("left"), qsTr("right")]
                index: root.setup.driveOnRight ? 1 : 0
                onChosen: index => root.setup.driveOnRight = index === 1
            }

            SetupQuestion {
                width: parent.width
                question: qsTr("The sides of a car are called")
                options: [qsTr("near side, off side"), qsTr("left, right")]
                index: root.setup.leftRight ? 1 : 0
                onChosen: index => root.setup.leftRight = index === 1
            }
        }

        Column {
            anchors { left: parent.left; top: parent.top; margins: Theme.margin }
            width: Math.min(parent.width - 2 * Theme.margin, Theme.mm(230))
            visible: root.step === SetupScreen.You
            spacing: Theme.mm(6)

            Field {
                width: parent.width
                label: qsTr("Your name, as it stands under what you sign")
                text: root.setup.personName
                maximumLength: 60
                onEdited: text => root.setup.personName = text
                onAccepted: input.focus = false
            }

            Column {
                width: parent.width
                spacing: Theme.half

                Label {
                    text: qsTr("What you work on")
                    role: Label.Detail
                    muted: true
                }

                ChoiceChips {
                    width: parent.width
                    choices: root.setup.skills
                }
            }

            // As Staff and bays will say it: the first two, and how many more there are.
            Column {
                id: alone

                readonly property var warnings: root.setup.warnings

                width: parent.width
                visible: warnings.length > 0
                spacing: Theme.half

                Label {
                    width: parent.width
                    text: qsTr("Nobody could finish this yet. Add the others under Staff and bays.")
                    strong: true
                    wrapMode: Text.WordWrap
                }

                Repeater {
                    model: alone.warnings

                    delegate: Label {
                        required property string modelData
                        required property int index

                        visible: index < 2
                        width: alone.width
                        text: modelData
                        role: Label.Detail
                        wrapMode: Text.WordWrap
                    }
                }

                Label {
                    visible: alone.warnings.length > 2
                    text: qsTr("and %1 more").arg(alone.warnings.length - 2)
                    role: Label.Detail
                    muted: true
                }
            }
        }

        Item {
            anchors.fill: parent
            visible: root.step === SetupScreen.Pin

            PinPad {
                id: pinPad

                anchors.centerIn: parent
                visible: !root.setup.newPin.ready
                digits: root.setup.newPin.pad.digits
                message: root.setup.newPin.words
                onEntered: pin => root.setup.newPin.pad.enter(pin)
            }

            Column {
                anchors.centerIn: parent
                visible: root.setup.newPin.ready
                spacing: Theme.module

                Icon {
                    anchors.horizontalCenter: parent.horizontalCenter
                    width: Theme.mm(20)
                    height: Theme.mm(20)
                    symbol: Icon.Tick
                    colour: Theme.accent
                }

                Label {
                    text: qsTr("Both times the same.")
                    role: Label.Title
                }
            }
        }
    }

    Banner {
        anchors { left: parent.left; right: parent.right; bottom: foot.top; margins: Theme.margin; bottomMargin: Theme.module }
        visible: root.setup.ask.refused
        kind: root.setup.ask.canRetry ? Banner.Fault : Banner.Refusal
        what: root.setup.ask.words
        action: root.setup.ask.canRetry ? qsTr("Try again") : ""
        onActed: root.setup.ask.retry()
        onClosed: root.setup.ask.dismiss()
    }

    Item {
        id: foot

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; margins: Theme.margin; bottomMargin: Theme.module }
        height: root.step === SetupScreen.Choose ? 0 : Theme.touch
        visible: root.step !== SetupScreen.Choose && !root.setup.ask.busy

        ActionButton {
            symbol: Icon.Back
            text: qsTr("Back")
            onTapped: root.back()
        }

        ActionButton {
            anchors.right: parent.right
            kind: ActionButton.Accent
            text: root.step === SetupScreen.Pin ? qsTr("Open the workshop") : qsTr("Next")
            available: root.stepFault().length === 0 && (root.step !== SetupScreen.Pin || root.setup.complete)
            reason: qsTr("still missing: %1").arg(root.stepFault())
            onTapped: {
                if (root.step === SetupScreen.Pin)
                    root.setup.makeWorkshop()
                else
                    root.step += 1
            }
        }
    }
}
