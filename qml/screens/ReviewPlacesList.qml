// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Places of a review as chips, and the one touch that settles them. Safety places carry the hatch.
//   model, title, hint, none (words when there is no place), action, touchable
//   signals placeTouched(string place), acted()
Item {
    id: root

    required property ReviewPlaces model
    property string title: ""
    property string hint: ""
    property string none: ""
    property string action: ""
    property bool touchable: false
    readonly property int count: chips.count

    signal placeTouched(string place)
    signal acted

    Label {
        id: heading

        width: parent.width
        visible: root.count > 0
        text: root.title
        muted: true
        wrapMode: Text.WordWrap
    }

    Flickable {
        id: scroll

        anchors { left: parent.left; right: parent.right; top: heading.bottom; topMargin: Theme.gap; bottom: more.visible ? more.top : all.top; bottomMargin: Theme.gap }
        contentHeight: flow.height
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        interactive: contentHeight > height

        Flow {
            id: flow

            width: scroll.width
            spacing: root.touchable ? Theme.gap : Theme.half

            Repeater {
                id: chips

                model: root.model

                delegate: Touchable {
                    id: chip

                    required property string placeId
                    required property string title
                    required property bool safety

                    enabled: root.touchable
                    spoken: title
                    implicitWidth: row.width + 2 * Theme.module
                    implicitHeight: root.touchable ? Theme.touch : Theme.mm(12)
                    onTapped: root.placeTouched(placeId)

                    Rectangle {
                        anchors.fill: parent
                        radius: Theme.radius
                        color: chip.pressed ? Theme.rule : Theme.sunk
                    }

                    Row {
                        id: row

                        anchors.centerIn: parent
                        spacing: Theme.half

                        Icon {
                            anchors.verticalCenter: parent.verticalCenter
                            visible: root.touchable && chip.safety
                            symbol: Icon.HatchMark
                        }

                        Label {
                            text: chip.title
                            color: root.touchable ? Theme.accent : Theme.ink
                        }
                    }
                }
            }
        }
    }

    Label {
        anchors.centerIn: parent
        width: parent.width
        visible: root.count === 0
        text: root.none
        muted: true
        horizontalAlignment: Text.AlignHCenter
        wrapMode: Text.WordWrap
    }

    Label {
        id: more

        anchors { left: parent.left; right: parent.right; bottom: all.top; bottomMargin: Theme.gap }
        visible: text.length > 0 && root.count > 0
        text: root.hint
        role: Label.Detail
        muted: true
        wrapMode: Text.WordWrap
    }

    ActionButton {
        id: all

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        implicitHeight: Theme.touchSafety
        visible: root.count > 0
        paper: true
        kind: ActionButton.Accent
        symbol: root.touchable ? Icon.NoSymbol : Icon.Tick
        text: root.action
        onTapped: root.acted()
    }
}
