// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Spoken walk-rounds: above, the cars on which drafts wait for somebody; below, the files that
// nobody has read yet. With a carId a file whose name tells no car is that car's.
ScreenFrame {
    id: root

    property string carId: ""
    readonly property TranscriptsView view: shell.transcripts

    title: qsTr("Spoken walk-rounds")
    second: root.view.waitingWords

    Component.onCompleted: root.view.begin(root.carId)

    Connections {
        target: root.view

        function onTaken(carId: string, transcript: string, known: bool): void {
            root.navigator.openReview(carId)
        }
    }

    function choose(path: string, name: string): void {
        carSheet.path = path
        carSheet.name = name
        carSheet.open()
    }

    // ---- cars

    Flow {
        id: cars

        anchors { left: parent.left; right: parent.right; top: parent.top }
        spacing: Theme.gap
        visible: cards.count > 0

        Repeater {
            id: cards

            model: root.view.toReview

            delegate: Touchable {
                id: card

                required property string carId
                required property string stockNumber
                required property string makeModel
                required property int drafts

                width: Math.max(stock.implicitWidth, about.implicitWidth, Theme.mm(70)) + Theme.mm(16)
                height: Theme.mm(40)
                spoken: qsTr("%1: %2 to review").arg(card.stockNumber).arg(card.drafts)
                onTapped: root.navigator.openReview(card.carId)

                Rectangle {
                    anchors.fill: parent
                    radius: Theme.radius
                    color: card.pressed ? Theme.sunk : Theme.paper
                }

                Label {
                    id: stock

                    x: Theme.mm(8)
                    y: Theme.mm(3 + 17.5) - baselineOffset
                    text: card.stockNumber
                    role: Label.Distance
                }

                Label {
                    id: about

                    anchors { left: stock.left; bottom: parent.bottom; bottomMargin: Theme.mm(4.5) }
                    text: qsTr("%1 to review · %2").arg(card.drafts).arg(card.makeModel)
                }
            }
        }
    }

    // ---- files

    Rectangle {
        id: paper

        anchors { left: parent.left; right: parent.right; top: cars.visible ? cars.bottom : parent.top; topMargin: cars.visible ? Theme.module : 0; bottom: parent.bottom }
        radius: Theme.radius
        color: Theme.paper
    }

    Label {
        id: heading

        anchors { left: paper.left; leftMargin: Theme.mm(6); top: paper.top; topMargin: Theme.module }
        visible: list.count > 0
        text: list.count === 1 ? qsTr("One file waits in the drop folder or on a stick")
            : qsTr("%1 files wait in the drop folder or on a stick").arg(list.count)
        muted: true
    }

    ListView {
        id: list

        anchors { fill: paper; leftMargin: Theme.mm(6); rightMargin: Theme.mm(6); topMargin: heading.height + 2 * Theme.module; bottomMargin: Theme.half }
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.view.files

        delegate: TranscriptLine {
            width: list.width
            onReadWanted: root.view.read(path, carId)
            onCarWanted: root.choose(path, name)
            onRefused: root.view.explain(name, fault)
        }
    }

    Waiting {
        anchors.centerIn: paper
        visible: root.view.looking && list.count === 0
        paper: true
        text: qsTr("Looking through the drop folder and the sticks")
    }

    EmptyState {
        anchors.centerIn: paper
        width: Math.min(Theme.mm(220), paper.width - 2 * Theme.margin)
        visible: root.view.looked && !root.view.looking && list.count === 0
        paper: true
        title: root.view.fault.length > 0 ? qsTr("The files cannot be listed") : qsTr("No spoken walk-round waits")
        hint: root.view.fault.length > 0 ? root.view.fault
            : qsTr("Talk while you walk round the car, with a phone or a camera. Put the captions (.vtt, .srt) or the dictated text (.txt) into this kiosk's drop folder, or plug a stick in. A name with the stock number, such as “R-208 walk.vtt”, tells whose it is; the recording may lie beside it.")
        action: qsTr("Look again")
        onActed: root.view.look()
    }

    ways: [
        ActionButton {
            text: qsTr("Look again")
            visible: list.count > 0
            available: !root.view.looking
            onTapped: root.view.look()
        }
    ]

    sheets: [
        TranscriptCarSheet {
            id: carSheet

            view: root.view
        },
        AskBanner {
            anchors { bottom: parent ? parent.bottom : undefined; bottomMargin: Theme.touchSafety + 2 * Theme.module }
            ask: root.view.ask
        }
    ]
}
