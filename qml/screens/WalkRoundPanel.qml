// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The thumb's corner of the walk-round: what is wrong with the place that was touched, how much of
// it, what to do; the last touch records. With no place it offers what was recorded last.
//   walk;  signals photoWanted(int findingId, string words), sayNote()
Rectangle {
    id: root

    required property WalkRound walk
    property bool moreConditions: false
    property bool moreRemedies: false
    property string pad: ""
    readonly property bool placed: walk.place.length > 0

    signal photoWanted(int findingId, string words)

    radius: Theme.radius
    color: Theme.paper
    clip: true

    Connections {
        target: root.walk

        function onPlaceChanged(): void {
            if (root.walk.place !== head.place) {
                head.place = root.walk.place
                root.moreConditions = false
                root.moreRemedies = false
                root.pad = ""
            }
        }
    }

    // ---- the place

    Item {
        id: head

        property string place: ""

        anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.module }
        height: Theme.touch
        visible: root.placed

        Label {
            anchors { left: parent.left; right: extras.left; rightMargin: Theme.half; verticalCenter: parent.verticalCenter }
            text: root.walk.placeWords
            role: Label.Reading
            strong: true
            wrapMode: Text.WordWrap
            maximumLineCount: 2
            elide: Text.ElideRight
        }

        Row {
            id: extras

            anchors.right: parent.right
            spacing: Theme.gap

            WalkRoundExtra {
                title: qsTr("how many")
                value: root.walk.draft.countText
                onTapped: root.pad = root.pad === "count" ? "" : "count"
            }

            WalkRoundExtra {
                title: qsTr("size, mm")
                value: root.walk.draft.sizeText
                onTapped: root.pad = root.pad === "size" ? "" : "size"
            }

            WalkRoundExtra {
                title: qsTr("note")
                value: root.walk.draft.note.length > 0 ? "…" : ""
                onTapped: root.pad = root.pad === "note" ? "" : "note"
            }

            ActionButton {
                visible: root.walk.canBeSound
                paper: true
                kind: ActionButton.Accent
                text: qsTr("Sound")
                onTapped: root.walk.foundSound()
            }

            ActionButton {
                paper: true
                text: ""
                implicitWidth: Theme.touch
                symbol: Icon.Cross
                spoken: qsTr("No place")
                onTapped: root.walk.touch("")
            }
        }
    }

    Flickable {
        id: scroll

        anchors { left: parent.left; right: parent.right; top: head.bottom; bottom: parent.bottom; margins: Theme.module; topMargin: Theme.gap }
        visible: root.placed
        contentHeight: steps.height
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        interactive: contentHeight > height

        Column {
            id: steps

            width: scroll.width
            spacing: Theme.gap

            Label {
                text: qsTr("What it is")
                role: Label.Detail
                muted: true
            }

            WalkRoundChips {
                width: parent.width
                choices: root.walk.conditions
                all: root.moreConditions
                onPicked: choice => {
                    root.moreConditions = false
                    root.walk.sayCondition(choice)
                }
                onMoreWanted: root.moreConditions = true
            }

            Label {
                visible: !root.moreConditions
                text: qsTr("How much")
                role: Label.Detail
                muted: true
            }

            WalkRoundChips {
                width: parent.width
                visible: !root.moreConditions
                choices: root.walk.draft.severities
                grouped: false
                onPicked: choice => root.walk.saySeverity(choice)
            }

            // Where the remedies come later, so that nothing moves under the finger.
            Flow {
                width: parent.width
                spacing: Theme.gap
                visible: !root.moreConditions && !root.walk.conditionSaid

                ActionButton {
                    visible: root.walk.sameWords.length > 0
                    paper: true
                    text: root.walk.sameWords
                    onTapped: root.walk.recordSame()
                }

                ActionButton {
                    visible: root.walk.otherPlace.length > 0
                    paper: true
                    text: root.walk.otherPlaceWords
                    onTapped: root.walk.touch(root.walk.otherPlace)
                }

                ActionButton {
                    visible: root.walk.view === "wheels" && root.walk.place.startsWith("tyre-")
                    paper: true
                    text: qsTr("Measure it")
                    onTapped: {
                        const tyre = root.walk.place
                        root.walk.touch("")
                        root.walk.tyres.goTo(tyre)
                    }
                }

                ActionButton {
                    visible: root.walk.paint.possible
                    paper: true
                    text: qsTr("Paint depth")
                    onTapped: root.pad = "paint"
                }

                Repeater {
                    id: before

                    model: root.walk.here

                    delegate: ActionButton {
                        required property int findingId
                        required property string words

                        paper: true
                        text: qsTr("Take back: %1").arg(words)
                        onTapped: root.walk.takeBack(findingId)
                    }
                }
            }

            Label {
                visible: !root.moreConditions && root.walk.conditionSaid
                text: qsTr("What to do: this records it")
                role: Label.Detail
                muted: true
            }

            WalkRoundChips {
                width: parent.width
                visible: !root.moreConditions && root.walk.conditionSaid
                choices: root.walk.remedies
                all: root.moreRemedies
                first: true
                onPicked: choice => root.walk.record(choice)
                onMoreWanted: root.moreRemedies = true
            }
        }
    }

    // ---- optional extras, on the same panel

    Rectangle {
        readonly property bool wide: root.pad === "note" || root.pad === "paint"

        anchors { right: parent.right; bottom: parent.bottom; margins: Theme.module }
        visible: root.placed && root.pad.length > 0
        width: wide ? parent.width - 2 * Theme.module : pad.width + 2 * Theme.module
        height: (root.pad === "note" ? note.height : root.pad === "paint" ? paint.height : pad.height) + 2 * Theme.module
        radius: Theme.radius
        color: Theme.paper
        border.width: Theme.thickLine
        border.color: Theme.accent

        MouseArea {
            anchors.fill: parent
        }

        FindingPad {
            id: pad

            x: Theme.module
            y: Theme.module
            draft: root.walk.draft
            figure: root.pad
            onDone: root.pad = ""
        }

        WalkRoundPaint {
            id: paint

            x: Theme.module
            y: Theme.module
            width: parent.width - 2 * Theme.module
            visible: root.pad === "paint"
            walk: root.walk
            onClosed: root.pad = ""
        }

        NoteField {
            id: note

            x: Theme.module
            y: Theme.module
            width: parent.width - 2 * Theme.module
            visible: root.pad === "note"
            label: qsTr("In your words")
            lines: 2
            text: root.walk.draft.note
            onEdited: text => root.walk.draft.note = text
        }
    }

    // ---- no place

    // What was found so far, to look at again: a touch opens its place.
    ListView {
        id: found

        anchors { left: parent.left; right: parent.right; top: parent.top; bottom: offers.top; margins: Theme.module }
        visible: offers.visible
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.walk.found

        delegate: Touchable {
            id: line

            required property string placeId
            required property string words
            required property string byWords

            width: found.width
            height: Theme.touch
            spoken: words
            onTapped: root.walk.touch(placeId)

            Rectangle {
                anchors.fill: parent
                radius: Theme.radius
                color: line.pressed ? Theme.rule : "transparent"
            }

            Label {
                anchors { left: parent.left; right: by.left; leftMargin: Theme.half; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }
                text: line.words
                elide: Text.ElideRight
            }

            Label {
                id: by

                anchors { right: parent.right; rightMargin: Theme.half; verticalCenter: parent.verticalCenter }
                text: line.byWords
                role: Label.Detail
                muted: true
            }

            Rectangle {
                anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
                height: Theme.line
                color: Theme.rule
            }
        }
    }

    Column {
        id: offers

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; margins: Theme.mm(6) }
        visible: !root.placed && root.walk.view !== "wheels"
        spacing: Theme.module

        Label {
            width: parent.width
            text: root.walk.leftHere > 0 ? qsTr("Touch a place. %1 of this view are not looked at yet: they are stippled.").arg(root.walk.leftHere)
                : qsTr("Touch a place where you find something.")
            muted: true
            wrapMode: Text.WordWrap
        }

        WalkRoundLast {
            width: parent.width
            walk: root.walk
            onPhotoWanted: (findingId, words) => root.photoWanted(findingId, words)
        }
    }

    WalkRoundTyrePad {
        anchors { fill: parent; margins: Theme.module }
        visible: !root.placed && root.walk.view === "wheels"
        walk: root.walk
        onPhotoWanted: (findingId, words) => root.photoWanted(findingId, words)
    }
}
