// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A finding put together by touch: the place on the drawing or from the list, what it is, how
// much, what to do.  draft, shape;  signal confirmed(): the draft is what is to be recorded
DialogSheet {
    id: root

    required property Shell shell
    required property FindingDraft draft
    property string shape: "hatch"
    property string confirm: qsTr("Record it")

    signal confirmed

    readonly property bool wide: width > height
    property string pad: ""

    function open(): void {
        root.draft.clear()
        root.shown = true
    }

    title: qsTr("Found something")
    sheetWidth: width - 2 * Theme.margin
    onDismissed: root.shown = false
    onShownChanged: root.pad = ""

    Item {
        id: body

        width: parent.width
        height: root.height - Theme.mm(95)

        CarOutline {
            id: outline

            anchors { left: parent.left; top: parent.top }
            height: root.wide ? parent.height : parent.height * 0.42
            width: height * aspect
            shape: root.shape
            marks: root.draft.places.current.length > 0 ? ({ [root.draft.places.current]: Wall.Outstanding }) : ({})
            interactive: true
            onPlaceTouched: place => root.draft.choosePlace(place)
        }

        Flickable {
            id: scroll

            anchors {
                left: root.wide ? outline.right : parent.left
                leftMargin: root.wide ? Theme.margin : 0
                right: parent.right
                top: root.wide ? parent.top : outline.bottom
                topMargin: root.wide ? 0 : Theme.module
                bottom: parent.bottom
            }
            contentHeight: column.height
            clip: true
            boundsBehavior: Flickable.DragOverBounds

            Column {
                id: column

                width: scroll.width
                spacing: Theme.module

                Label {
                    width: parent.width
                    text: root.draft.words.length > 0 ? root.draft.words : qsTr("Touch the place on the drawing, or choose it from the list.")
                    role: Label.Title
                    wrapMode: Text.WordWrap
                }

                Label {
                    width: parent.width
                    visible: text.length > 0
                    text: root.draft.fault
                    wrapMode: Text.WordWrap
                }

                ActionButton {
                    paper: true
                    text: places.visible ? qsTr("Hide the list of places") : qsTr("Choose the place from the list")
                    onTapped: places.visible = !places.visible
                }

                ChoiceChips {
                    id: places

                    width: parent.width
                    visible: false
                    choices: root.draft.places
                }

                Label {
                    text: qsTr("What it is")
                    muted: true
                }

                ChoiceChips {
                    width: parent.width
                    choices: root.draft.conditions
                }

                Label {
                    text: qsTr("How much")
                    muted: true
                }

                ChoiceChips {
                    width: parent.width
                    choices: root.draft.severities
                }

                Row {
                    spacing: Theme.gap

                    WalkRoundExtra {
                        title: qsTr("how many")
                        value: root.draft.countText
                        onTapped: root.pad = root.pad === "count" ? "" : "count"
                    }

                    WalkRoundExtra {
                        title: qsTr("size, mm")
                        value: root.draft.sizeText
                        onTapped: root.pad = root.pad === "size" ? "" : "size"
                    }
                }

                Label {
                    text: qsTr("What to do")
                    muted: true
                }

                ChoiceChips {
                    width: parent.width
                    choices: root.draft.remedies
                }

                Field {
                    width: Theme.mm(80)
                    visible: root.draft.asksTread
                    label: qsTr("Tread, lowest, mm")
                    text: root.draft.treadText
                    onEdited: text => root.draft.treadText = text
                }

                NoteField {
                    width: parent.width
                    label: qsTr("In your words")
                    lines: 2
                    text: root.draft.note
                    onEdited: text => root.draft.note = text
                }
            }
        }

        // Beside the drawing where that leaves room.
        Rectangle {
            anchors.right: parent.right
            y: (root.wide ? parent.height : outline.height) - height
            visible: root.pad.length > 0
            width: pad.width + 2 * Theme.module
            height: pad.height + 2 * Theme.module
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
                draft: root.draft
                figure: root.pad
                onDone: root.pad = ""
            }
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: root.confirm
            available: root.draft.complete && root.draft.fault.length === 0
            reason: root.draft.fault.length > 0 ? root.draft.fault : qsTr("place and condition")
            onTapped: {
                root.shown = false
                root.confirmed()
            }
        }
    ]
}
