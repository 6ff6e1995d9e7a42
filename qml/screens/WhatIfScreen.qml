// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What would come of one more person, a bay, extra hours, somebody away, a part, a promise: how many
// cars late, and which ready when, against the plan as it is. Nothing is changed by looking.
ScreenFrame {
    id: root

    readonly property WhatIfView view: shell.whatIf
    readonly property bool asked: view.count > 0
    // Beside the list, or over and under it.
    readonly property real sideWidth: tall ? bodyWidth : Math.round(bodyWidth * 0.4)

    title: qsTr("What if")
    second: root.asked ? qsTr("held against the plan %1; nothing is changed").arg(root.shell.plan.asOf) : qsTr("looked at against the plan; nothing is changed")
    backText: qsTr("Back to the plan as it is")

    Component.onDestruction: root.view.clear()

    Connections {
        target: root.view

        function onKept(): void {
            changeSheet.shown = false
        }
    }

    Row {
        id: figures

        width: root.sideWidth
        height: Theme.mm(28)
        spacing: Theme.mm(14)

        CountFigure {
            anchors.verticalCenter: parent.verticalCenter
            count: root.view.lateNow
            words: qsTr("late\nas planned")
        }

        CountFigure {
            anchors.verticalCenter: parent.verticalCenter
            visible: root.view.considered && root.view.faultWords.length === 0
            opacity: root.view.considering ? 0.4 : 1
            count: root.view.lateThen
            words: qsTr("late\nthen")
        }
    }

    Sheet {
        id: paper

        x: root.tall ? 0 : root.sideWidth + Theme.module
        y: root.tall ? figures.height + Theme.half : 0
        width: root.bodyWidth - x
        height: root.tall ? choosing.y - y - Theme.module : root.bodyHeight

        Item {
            id: heads

            readonly property real nowX: Theme.mm(46)
            readonly property real thenX: nowX + (width - nowX - Theme.mm(40)) / 2

            width: parent.width
            height: visible ? Theme.mm(8) : 0
            visible: cars.count > 0

            Label {
                x: heads.nowX
                text: qsTr("as planned")
                role: Label.Detail
                muted: true
            }

            Label {
                x: heads.thenX
                text: qsTr("then")
                role: Label.Detail
                muted: true
            }
        }

        ListView {
            id: cars

            readonly property Component heading: Qt.createComponent("ListHeading.qml")

            anchors { left: parent.left; right: parent.right; top: heads.bottom; bottom: rest.top }
            visible: root.view.considered
            opacity: root.view.considering ? 0.4 : 1
            clip: true
            boundsBehavior: Flickable.DragOverBounds
            model: root.view.cars
            section.property: "group"
            section.delegate: cars.heading

            delegate: WhatIfLine {
                width: cars.width
                nowX: heads.nowX
                thenX: heads.thenX
            }
        }

        Label {
            id: rest

            anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
            height: visible ? Theme.mm(11) : 0
            visible: cars.visible && cars.count > 0 && root.view.restWords.length > 0
            text: root.view.restWords
            muted: true
            verticalAlignment: Text.AlignBottom
            elide: Text.ElideRight
        }

        Waiting {
            anchors.centerIn: parent
            visible: root.view.considering
            text: qsTr("Looking at what comes of it")
            paper: true
        }

        EmptyState {
            anchors.centerIn: parent
            visible: !root.view.considering && cars.count === 0
            paper: true
            title: !root.asked ? qsTr("What would be different?") : root.view.faultWords.length > 0 ? qsTr("It cannot be planned so") : root.view.restWords
            hint: !root.asked ? qsTr("Choose one thing or several. Cars that would be ready sooner or later stand here then.") : root.view.faultWords
        }
    }

    Column {
        id: choosing

        y: root.bodyHeight - height
        width: root.sideWidth
        spacing: Theme.module

        ListView {
            id: changes

            readonly property real room: root.tall ? Theme.mm(70) : root.bodyHeight - figures.height - adders.height - 3 * Theme.module

            width: parent.width
            height: Math.min(contentHeight, room)
            visible: count > 0
            clip: true
            spacing: Theme.half
            boundsBehavior: Flickable.DragOverBounds
            interactive: contentHeight > height
            model: root.view.changes
            onCountChanged: changes.positionViewAtEnd()

            delegate: Touchable {
                id: change

                required property int changeId
                required property string words
                required property bool keepable
                required property bool wantsReason
                required property string keepWords

                width: changes.width
                implicitHeight: Math.max(Theme.touch, said.implicitHeight + Theme.module)
                spoken: change.words
                onTapped: changeSheet.show(change.changeId, change.words, change.keepable, change.wantsReason, change.keepWords)

                Rectangle {
                    anchors.fill: parent
                    radius: Theme.radius
                    color: change.pressed ? Theme.sunk : Theme.paper
                }

                Rectangle {
                    anchors { left: parent.left; top: parent.top; bottom: parent.bottom }
                    width: Theme.mm(1.2)
                    color: Theme.accent
                }

                Label {
                    id: said

                    anchors { left: parent.left; leftMargin: Theme.mm(5); right: parent.right; rightMargin: Theme.mm(5); verticalCenter: parent.verticalCenter }
                    text: change.words
                    wrapMode: Text.WordWrap
                }
            }
        }

        Grid {
            id: adders

            readonly property real cell: (root.sideWidth - (columns - 1) * spacing) / columns

            columns: root.tall ? 3 : 2
            spacing: Theme.gap

            ActionButton {
                width: adders.cell
                height: Theme.touchSafety
                text: qsTr("One more person")
                onTapped: addSheet.ask(WhatIfForm.Person)
            }

            ActionButton {
                width: adders.cell
                height: Theme.touchSafety
                text: qsTr("Extra hours")
                onTapped: addSheet.ask(WhatIfForm.Hours)
            }

            ActionButton {
                width: adders.cell
                height: Theme.touchSafety
                text: qsTr("Somebody away")
                onTapped: addSheet.ask(WhatIfForm.Away)
            }

            ActionButton {
                width: adders.cell
                height: Theme.touchSafety
                text: qsTr("One more bay")
                onTapped: addSheet.ask(WhatIfForm.Bay)
            }

            ActionButton {
                width: adders.cell
                height: Theme.touchSafety
                text: qsTr("A part comes")
                available: root.view.form.somethingAwaited
                reason: qsTr("nothing is awaited")
                onTapped: addSheet.ask(WhatIfForm.Part)
            }

            ActionButton {
                width: adders.cell
                height: Theme.touchSafety
                text: qsTr("Another promise")
                onTapped: addSheet.ask(WhatIfForm.Promise)
            }
        }
    }

    actions: [
        ActionButton {
            visible: root.view.count > 1
            text: qsTr("Take all out")
            onTapped: root.view.clear()
        }
    ]

    sheets: [
        WhatIfAddSheet {
            id: addSheet

            view: root.view
        },
        WhatIfChangeSheet {
            id: changeSheet

            view: root.view
        }
    ]
}
